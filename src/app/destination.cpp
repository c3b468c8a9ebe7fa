#include "app/destination.h"

namespace jointledger {

std::unique_ptr<Destination> Destination::open(const std::string& path, mode_t mode, bool aside, std::string& reason) {
  std::unique_ptr<Destination> result(new Destination());
  result->path_ = path;
  if (aside && can_be_replaced(path)) {
    result->aside_ = FileAside::open(path, mode, reason);
    if (!result->aside_) return nullptr;
    result->file_ = std::make_unique<Output>(result->aside_->descriptor());
  } else {
    result->file_ = Output::open(path, mode, reason);
    if (!result->file_) return nullptr;
  }
  result->out_ = result->file_.get();
  return result;
}

std::optional<std::string> Destination::go_on_at(std::uint64_t bytes) {
  if (!aside_) return std::nullopt;
  file_ = std::make_unique<Output>(aside_->descriptor(), bytes);
  out_ = file_.get();
  return aside_->cut(bytes);
}

std::optional<std::string> Destination::sync() {
  if (auto failure = out_->finish()) return failure;
  return aside_ ? aside_->sync() : std::nullopt;
}

std::optional<std::string> Destination::show() {
  if (auto failure = out_->finish()) return failure;
  return aside_ ? aside_->show() : std::nullopt;
}

}  // namespace jointledger
