// Beginning with libxml2, which several threads must not do at once: they would wait for each other for ever.
#pragma once

#include <libxml/parser.h>

#include <mutex>

namespace jointledger {

/// To be called before anything else of libxml2, in every function that is a door to it. Thread-safe; does its work
/// once.
inline void start_libxml() {
  static std::once_flag once;
  std::call_once(once, xmlInitParser);
}

}  // namespace jointledger
