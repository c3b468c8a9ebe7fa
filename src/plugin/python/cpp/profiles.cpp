#include "profiles.h"

#include <span>

namespace jointledger::python {
namespace nb = nanobind;
namespace {

nb::dict expectation(const jointledger_expectation& e) {
  nb::dict out;
  out["id"] = e.id;
  out["kind"] = jointledger_kind_name(e.kind);
  out["weight"] = e.weight;
  out["asks"] = e.asks;
  out["why"] = e.why;
  out["source"] = e.source;
  return out;
}

nb::dict profile(const jointledger_profile& p) {
  nb::list expectations;
  for (const jointledger_expectation& e : std::span(p.expectations, p.expectation_count)) {
    expectations.append(expectation(e));
  }
  nb::dict out;
  out["name"] = p.name;
  out["title"] = p.title;
  out["purpose"] = p.purpose;
  out["caution"] = p.caution;
  out["expectations"] = expectations;
  return out;
}

}  // namespace

nb::list profiles(Engine& engine) {
  const Borrowed scratch(engine);
  const jointledger_profile* listed = nullptr;
  std::size_t count = 0;
  if (jointledger_profiles(engine.handle(), scratch.get(), &listed, &count) != JOINTLEDGER_OK) throw std::bad_alloc();
  nb::list out;
  for (const jointledger_profile& p : std::span(listed, count)) out.append(profile(p));
  return out;
}

}  // namespace jointledger::python
