// What is in force when a sentence begins: the heading above, and what the sentences before were about.
#pragma once

#include <boost/container/small_vector.hpp>
#include <optional>
#include <vector>

#include "reading/document.h"
#include "reading/statement.h"

namespace jointledger {

struct Topic {
  const Scope* scope = nullptr;                        ///< of the heading above
  Span scope_words;                                    ///< the heading's words
  boost::container::small_vector<PlaceRef, 4> places;  ///< what the sentences before were about; empty after a heading
  boost::container::small_vector<Span, 4> place_words;
  bool elsewhere = false;                  ///< the sentences before were about another organ
  Side side = Side::unstated;              ///< the side last stated, while it holds
  bool low_back_complaint = false;         ///< "back" then means the lumbar spine
  std::optional<PlaceRef> complaint;       ///< the first complaint, for "affected" and "distally"
  std::vector<Statement>* said = nullptr;  ///< all statements of the note so far, for "same on the left"
};

}  // namespace jointledger
