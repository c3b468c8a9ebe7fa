// The handle that threads share: data in force, which can be swapped, and who uses it.
#pragma once

#include <atomic>
#include <cstdint>
#include <memory>
#include <mutex>

#include "plugin/c/loaded_data.h"

/// Thread-safe.
struct jointledger_engine {
 public:
  jointledger_engine(jointledger::plugin::DataPlaces places,
                     std::shared_ptr<const jointledger::plugin::LoadedData> data)
      : places_(std::move(places)), data_(std::move(data)) {}

  /// What is in force now. Whoever takes it works with it to the end, whatever is swapped in meanwhile.
  std::shared_ptr<const jointledger::plugin::LoadedData> data() {
    const std::lock_guard lock(mutex_);
    return data_;
  }

  jointledger::plugin::DataPlaces places() {
    const std::lock_guard lock(mutex_);
    return places_;
  }

  void swap(jointledger::plugin::DataPlaces places, std::shared_ptr<const jointledger::plugin::LoadedData> data) {
    {
      const std::lock_guard lock(mutex_);
      std::swap(places_, places);
      data_.swap(data);
    }
    // The old goes here, outside the lock: to free a lexicon takes a while.
  }

  void retain() { users_.fetch_add(1, std::memory_order_relaxed); }
  /// Whether that was the last one.
  bool release() { return users_.fetch_sub(1, std::memory_order_acq_rel) == 1; }

 private:
  std::atomic<std::uint64_t> users_ = 1;
  std::mutex mutex_;  // std::atomic<std::shared_ptr> takes a lock, too
  jointledger::plugin::DataPlaces places_;
  std::shared_ptr<const jointledger::plugin::LoadedData> data_;
};
