#include "app/output.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

namespace jointledger {
namespace {

constexpr std::size_t kEnough = std::size_t{256} << 10;

std::string reason_of(int error) { return std::generic_category().message(error); }

bool is_regular_file(int descriptor) {
  struct stat status = {};
  return ::fstat(descriptor, &status) == 0 && S_ISREG(status.st_mode);
}

}  // namespace

Output::Output() : Output(STDOUT_FILENO) {}

Output::Output(int descriptor, std::uint64_t before)
    : descriptor_(descriptor), eager_(!is_regular_file(descriptor)), passed_on_(before) {}

Output::~Output() {
  flush();
  if (owned_) ::close(descriptor_);
}

std::unique_ptr<Output> Output::open(const std::string& path, mode_t mode, std::string& reason) {
  const int descriptor = ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, mode);
  if (descriptor < 0) {
    reason = reason_of(errno);
    return nullptr;
  }
  auto output = std::make_unique<Output>(descriptor);
  output->owned_ = true;
  return output;
}

void Output::settle() {
  if (buffer_.size() >= kEnough) flush();
}

void Output::idle() {
  if (eager_) flush();
}

std::optional<std::string> Output::finish() {
  flush();
  return failure_;
}

bool Output::is_terminal() const { return ::isatty(descriptor_) == 1; }

void Output::flush() {
  std::string_view rest = buffer_;
  while (!failure_ && !rest.empty()) {
    const ssize_t count = ::write(descriptor_, rest.data(), rest.size());
    if (count >= 0) {
      rest.remove_prefix(static_cast<std::size_t>(count));
      passed_on_ += static_cast<std::uint64_t>(count);
    } else if (errno == EAGAIN) {
      // Whoever opened the pipe may have asked not to be kept waiting; here waiting is what is wanted.
      pollfd room = {descriptor_, POLLOUT, 0};
      ::poll(&room, 1, -1);
    } else if (errno != EINTR) {
      failure_ = reason_of(errno);
    }
  }
  buffer_.clear();
}

}  // namespace jointledger
