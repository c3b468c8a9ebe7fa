#include "program.h"

#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <cstdlib>
#include <stdexcept>
#include <string_view>

namespace jointledger::testing {
namespace {

struct Pipe {
  int read_end = -1;
  int write_end = -1;
};

Pipe open_pipe() {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("pipe");
  return {ends[0], ends[1]};
}

/// A terminal: what is written to one end is read from the other as it would be shown.
Pipe open_terminal() {
  Pipe pair;
  if (::openpty(&pair.read_end, &pair.write_end, nullptr, nullptr, nullptr) != 0) throw std::runtime_error("openpty");
  ::fcntl(pair.read_end, F_SETFD, FD_CLOEXEC);
  ::fcntl(pair.write_end, F_SETFD, FD_CLOEXEC);
  return pair;
}

std::vector<char*> pointers_to(std::vector<std::string>& strings) {
  std::vector<char*> pointers;
  for (std::string& s : strings) pointers.push_back(s.data());
  pointers.push_back(nullptr);
  return pointers;
}

/// Appends what is there. False once the other end is closed (a terminal says so with an error).
bool drain(int descriptor, std::string& out) {
  std::array<char, 65536> buffer;
  const ssize_t count = ::read(descriptor, buffer.data(), buffer.size());
  if (count <= 0) return false;
  out.append(buffer.data(), static_cast<std::size_t>(count));
  return true;
}

/// Feeds the input and collects both outputs at once, so that no full pipe stops the program.
void converse(int in, int out, int err, std::string_view input, Outcome& outcome) {
  std::array<pollfd, 3> ends = {{{in, POLLOUT, 0}, {out, POLLIN, 0}, {err, POLLIN, 0}}};
  const auto close_end = [](pollfd& end) {
    ::close(end.fd);
    end.fd = -1;
  };
  while (ends[0].fd >= 0 || ends[1].fd >= 0 || ends[2].fd >= 0) {
    if (input.empty() && ends[0].fd >= 0) close_end(ends[0]);
    ::poll(ends.data(), ends.size(), -1);
    if (ends[0].fd >= 0 && ends[0].revents != 0) {
      const ssize_t count = ::write(ends[0].fd, input.data(), std::min<std::size_t>(input.size(), 65536));
      if (count < 0) close_end(ends[0]);
      if (count > 0) input.remove_prefix(static_cast<std::size_t>(count));
    }
    if (ends[1].fd >= 0 && ends[1].revents != 0 && !drain(ends[1].fd, outcome.out)) close_end(ends[1]);
    if (ends[2].fd >= 0 && ends[2].revents != 0 && !drain(ends[2].fd, outcome.err)) close_end(ends[2]);
  }
}

}  // namespace

Outcome run_program(const std::vector<std::string>& arguments, const RunOptions& options) {
  std::vector<std::string> words = {JOINTLEDGER_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<std::string> environment = options.environment;
  environment.emplace_back("PATH=/usr/bin:/bin");
  const std::vector<char*> argv = pointers_to(words);
  const std::vector<char*> envp = pointers_to(environment);

  ::signal(SIGPIPE, SIG_IGN);  // the program may end before it has read all of its input
  const Pipe in = open_pipe();
  const Pipe out = options.terminal ? open_terminal() : open_pipe();
  const Pipe err = open_pipe();
  const pid_t child = ::fork();
  if (child < 0) throw std::runtime_error("fork");
  if (child == 0) {
    ::signal(SIGPIPE, SIG_DFL);
    ::dup2(in.read_end, STDIN_FILENO);
    ::dup2(out.write_end, STDOUT_FILENO);
    ::dup2(err.write_end, STDERR_FILENO);
    ::execve(argv[0], argv.data(), envp.data());
    ::_exit(127);
  }
  ::close(in.read_end);
  ::close(out.write_end);
  ::close(err.write_end);
  Outcome outcome;
  converse(in.write_end, out.read_end, err.read_end, options.input, outcome);
  int status = 0;
  ::waitpid(child, &status, 0);
  outcome.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  return outcome;
}

}  // namespace jointledger::testing
