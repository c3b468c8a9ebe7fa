#include "intake/byte_stream.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "intake/gzip_stream.h"

namespace jointledger {
namespace {

std::string reason_of(int error) { return std::generic_category().message(error); }

class DescriptorStream final : public ByteStream {
 public:
  /// Takes the descriptor over, but leaves the standard input open.
  explicit DescriptorStream(int descriptor) : descriptor_(descriptor) {}
  ~DescriptorStream() override {
    if (descriptor_ != STDIN_FILENO) ::close(descriptor_);
  }

  std::variant<std::size_t, std::string> read(std::span<char> out) override {
    while (true) {
      const ssize_t count = ::read(descriptor_, out.data(), out.size());
      if (count >= 0) return static_cast<std::size_t>(count);
      if (errno != EINTR) return reason_of(errno);
    }
  }

 private:
  int descriptor_;
};

}  // namespace

std::variant<std::unique_ptr<ByteStream>, std::string> open_bytes(const std::string& path) {
  if (path == "-") return without_gzip(std::make_unique<DescriptorStream>(STDIN_FILENO));
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return reason_of(errno);
  return without_gzip(std::make_unique<DescriptorStream>(descriptor));
}

}  // namespace jointledger
