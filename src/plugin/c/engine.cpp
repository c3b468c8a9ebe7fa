#include "plugin/c/engine.h"

#include <cstdlib>
#include <cstring>
#include <string>
#include <utility>

#include "jointledger.h"
#include "plugin/c/boundary.h"

namespace jointledger::plugin {
namespace {

/// For a caller that frees it with jointledger_text_free(). NULL for nothing.
char* text_to_free(const std::string& text) {
  if (text.empty()) return nullptr;
  auto* copy = static_cast<char*>(std::malloc(text.size() + 1));
  if (copy == nullptr) throw std::bad_alloc();
  std::memcpy(copy, text.c_str(), text.size() + 1);
  return copy;
}

}  // namespace
}  // namespace jointledger::plugin

using namespace jointledger::plugin;

int jointledger_engine_open(const jointledger_engine_options* options, jointledger_engine** engine,
                            char** faults) noexcept {
  hand_out<char*>(faults, nullptr);
  if (engine == nullptr) return JOINTLEDGER_BAD_ARGUMENT;
  *engine = nullptr;
  return guarded([&] {
    auto places = places_of(options);
    if (!places) return JOINTLEDGER_BAD_ARGUMENT;
    Loading loading = load(*places);
    std::unique_ptr<jointledger_engine> opened;
    if (loading.data) opened = std::make_unique<jointledger_engine>(*std::move(places), std::move(loading.data));
    if (faults != nullptr) *faults = text_to_free(loading.faults);
    *engine = opened.release();
    return static_cast<jointledger_code>(loading.code);
  });
}

int jointledger_engine_reload(jointledger_engine* engine, const jointledger_engine_options* options,
                              char** faults) noexcept {
  hand_out<char*>(faults, nullptr);
  if (engine == nullptr) return JOINTLEDGER_BAD_ARGUMENT;
  return guarded([&] {
    auto places = options == nullptr ? engine->places() : places_of(options);
    if (!places) return JOINTLEDGER_BAD_ARGUMENT;
    Loading loading = load(*places);
    if (faults != nullptr) *faults = text_to_free(loading.faults);
    if (loading.data) engine->swap(*std::move(places), std::move(loading.data));
    return static_cast<jointledger_code>(loading.code);
  });
}

jointledger_engine* jointledger_engine_retain(jointledger_engine* engine) noexcept {
  if (engine != nullptr) engine->retain();
  return engine;
}

void jointledger_engine_release(jointledger_engine* engine) noexcept {
  if (engine != nullptr && engine->release()) delete engine;
}

void jointledger_text_free(char* text) noexcept { std::free(text); }
