// "The former", "the latter": words that stand for one of several places named before.
//
// Private to the files that find places; clause.h and place_steps.h are the doors.
#pragma once

#include <boost/container/small_vector.hpp>
#include <optional>

#include "reading/place_steps.h"

namespace jointledger {

/// Places in the order in which they were named.
using NamedPlaces = boost::container::small_vector<PlaceRef, 4>;

/// The place that item `i` stands for: the first or the last of those named before it in the sentence or, if that is
/// fewer than two, in `scan.context.named`. Nothing if the item stands for none, or nothing was named.
std::optional<PlaceRef> referred_place(const PlaceScan& scan, Index i);

/// Replaces `named` by the places of a sentence, if it names several.
void keep_named(const Document& document, const SentenceParts& parts, NamedPlaces& named);

}  // namespace jointledger
