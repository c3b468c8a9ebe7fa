// The edge between C and C++: nothing thrown gets past it, and arguments are looked at before they are used.
#pragma once

#include <cstring>
#include <new>
#include <stdexcept>

#include "jointledger.h"

namespace jointledger::plugin {

/// Runs `work`, which returns a code, and makes a code of whatever it throws.
template <class Work>
int guarded(const Work& work) noexcept {
  try {
    return work();
  } catch (const std::bad_alloc&) {
    return JOINTLEDGER_NO_MEMORY;
  } catch (const std::length_error&) {  // more than a container can hold
    return JOINTLEDGER_NO_MEMORY;
  } catch (...) {
    return JOINTLEDGER_INTERNAL;
  }
}

/// Writes an out parameter, which may be NULL.
template <class Value>
void hand_out(Value* out, const Value& value) {
  if (out != nullptr) *out = value;
}

/// Copies a structure that begins with its own size, from a caller whose header may be older or newer: members that it
/// does not know are zero. False if it has what this library does not know: a size that cannot be, or further members
/// that are not zero.
template <class Struct>
bool take_sized(const Struct* given, Struct& taken) {
  taken = {};
  if (given == nullptr) return true;
  constexpr std::size_t kMost = 4096;
  const std::size_t size = given->size;
  if (size < sizeof size || size > kMost) return false;
  const auto* bytes = reinterpret_cast<const unsigned char*>(given);
  for (std::size_t i = sizeof(Struct); i < size; ++i) {
    if (bytes[i] != 0) return false;
  }
  std::memcpy(&taken, given, size < sizeof(Struct) ? size : sizeof(Struct));
  return true;
}

}  // namespace jointledger::plugin
