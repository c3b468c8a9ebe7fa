// Memory for the plain structures of one result, given back all at once.
#pragma once

#include <cstddef>
#include <memory>
#include <memory_resource>

namespace jointledger::plugin {

/// Not thread-safe. What was given back stays with the arena, so that it stops allocating once warm.
class Arena {
 public:
  /// `count` values, all zero; null for none. They hold until clear(). Throws for lack of memory.
  template <class Value>
  Value* array(std::size_t count) {
    if (count == 0) return nullptr;
    Value* values = std::pmr::polymorphic_allocator<Value>(&memory_).allocate(count);
    std::uninitialized_value_construct_n(values, count);
    return values;
  }

  void clear() { memory_.release(); }

 private:
  std::pmr::unsynchronized_pool_resource pool_;
  std::pmr::monotonic_buffer_resource memory_{&pool_};
};

}  // namespace jointledger::plugin
