// Memory for the plain structures of one result, given back all at once.
#pragma once

#include <cstddef>
#include <memory>
#include <memory_resource>
#include <optional>
#include <utility>

namespace jointledger::plugin {

/// Not thread-safe. It keeps one block as large as what was last needed, so that it stops allocating once warm.
class Arena {
 public:
  Arena() { memory_.emplace(); }

  /// `count` values, all zero; null for none. They hold until clear(). Throws for lack of memory.
  template <class Value>
  Value* array(std::size_t count) {
    if (count == 0) return nullptr;
    used_ += count * sizeof(Value) + alignof(Value);
    Value* values = std::pmr::polymorphic_allocator<Value>(&*memory_).allocate(count);
    std::uninitialized_value_construct_n(values, count);
    return values;
  }

  /// Takes all of it back. Throws for lack of memory; it can be used all the same.
  void clear() {
    memory_.emplace(block_.get(), size_);
    if (used_ > size_) {
      auto larger = std::make_unique_for_overwrite<std::byte[]>(used_);
      memory_.emplace(larger.get(), used_);
      block_ = std::move(larger);
      size_ = used_;
    }
    used_ = 0;
  }

 private:
  std::unique_ptr<std::byte[]> block_;
  std::size_t size_ = 0;
  std::size_t used_ = 0;
  // A pool behind it would do without the block, but libstdc++ 12's falls over where memory runs out.
  std::optional<std::pmr::monotonic_buffer_resource> memory_;
};

}  // namespace jointledger::plugin
