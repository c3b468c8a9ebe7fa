// Handles of the C interface that free themselves, and calls as tests make them.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "jointledger.h"

namespace jointledger::testing {

struct Release {
  void operator()(jointledger_engine* engine) const { jointledger_engine_release(engine); }
  void operator()(jointledger_scratch* scratch) const { jointledger_scratch_free(scratch); }
  void operator()(char* text) const { jointledger_text_free(text); }
};
using Engine = std::unique_ptr<jointledger_engine, Release>;
using Scratch = std::unique_ptr<jointledger_scratch, Release>;

/// What came of opening or reloading.
struct Opened {
  int code = JOINTLEDGER_OK;
  Engine engine;
  std::string faults;
};

inline Opened open_engine(const jointledger_engine_options* options = nullptr) {
  Opened opened;
  jointledger_engine* engine = nullptr;
  char* faults = nullptr;
  opened.code = jointledger_engine_open(options, &engine, &faults);
  opened.engine.reset(engine);
  const std::unique_ptr<char, Release> text(faults);
  if (text) opened.faults = text.get();
  return opened;
}

/// Those that ship.
inline Engine shipped_engine() { return open_engine().engine; }

inline Scratch new_scratch() {
  jointledger_scratch* scratch = nullptr;
  jointledger_scratch_new(&scratch);
  return Scratch(scratch);
}

inline int read(const Engine& engine, const Scratch& scratch, std::string_view text,
                const jointledger_ledger** ledger = nullptr) {
  return jointledger_read(engine.get(), scratch.get(), text.data(), text.size(), ledger);
}

inline int read_record(const Engine& engine, const Scratch& scratch, std::string_view line,
                       const jointledger_ledger** ledger = nullptr) {
  return jointledger_read_record(engine.get(), scratch.get(), line.data(), line.size(), ledger);
}

inline int audit(const Scratch& scratch, std::string_view profile, const jointledger_audit** audit_ = nullptr,
                 float least_certainty = 0) {
  const jointledger_audit_options options = {sizeof options, least_certainty};
  return jointledger_audit_ledger(scratch.get(), profile.data(), profile.size(), &options, audit_);
}

/// The JSON with a line break, as a line of NDJSON; empty after a failure. Without an id, the note's own.
inline std::string ledger_line(const Scratch& scratch, std::string_view id = {}) {
  const char* json = nullptr;
  std::size_t size = 0;
  jointledger_ledger_json(scratch.get(), id.empty() ? nullptr : id.data(), id.size(), &json, &size);
  return json == nullptr ? std::string() : std::string(json, size) + "\n";
}

inline std::string audit_line(const Scratch& scratch, std::string_view id = {}) {
  const char* json = nullptr;
  std::size_t size = 0;
  jointledger_audit_json(scratch.get(), id.empty() ? nullptr : id.data(), id.size(), &json, &size);
  return json == nullptr ? std::string() : std::string(json, size) + "\n";
}

inline std::string message(const Scratch& scratch) { return jointledger_scratch_message(scratch.get()); }

inline std::string contents(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline std::vector<std::string> lines_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::vector<std::string> lines;
  for (std::string line; std::getline(file, line);) lines.push_back(line);
  return lines;
}

}  // namespace jointledger::testing
