// The complaints of a note as they are collected: one per region, sides merged.
//
// Private to complaints.cpp and the files beside it.
#pragma once

#include <cstddef>
#include <vector>

#include "ledger/ledger.h"

namespace jointledger {

/// Whether trouble at `known` is often described as at `other`: neighbours, and the limb or spine that holds it.
bool next_door(Region known, Region other);

/// One mention of a complaint.
struct ComplaintMention {
  Region region = Region::whole_body;
  Side side = Side::unstated;
  Span evidence;
  bool injury = false;
  bool reason = false;  ///< told as the reason for the visit, whose side then holds
  bool loose = false;   ///< "both" only because it is told of several parts: "the fingers"
};

/// Collects into `out`, which it does not own; a stated side replaces an unstated one.
class ComplaintList {
 public:
  explicit ComplaintList(std::vector<Complaint>& out) : out_(out) {}

  /// Adds a mention. Groups other than one kind of limb are left out, and so is the joint next door to a complaint of
  /// an earlier list.
  void add(const ComplaintMention& mention);

  /// The mentions that follow are of one list ("foot and ankle pain"), until the next call.
  void begin_list() { before_list_ = out_.size(); }

  /// The mentions that follow are of one more sentence.
  void begin_sentence();

  /// Takes back what the sentence before brought, unless it was the reason for the visit.
  void take_back_last_sentence();

  /// Takes back a region, unless it is the reason for the visit.
  void take_back(Region region);

  /// Whether a level of the spine is among them.
  bool has_level() const;

  bool empty() const { return out_.empty(); }

 private:
  bool settled(Region region) const;

  std::vector<Complaint>& out_;
  std::vector<Region> settled_;  ///< whose side the reason for the visit gives
  std::size_t before_list_ = 0;
  std::size_t before_sentence_ = 0;  ///< sizes of out_
  std::size_t before_last_ = 0;
  std::size_t of_reason_ = 0;
};

}  // namespace jointledger
