// "Did you mean ...?" for names that a person typed wrong.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace jointledger {

/// The name among `known` that `typed` most likely stands for: the nearest by edit distance if it is near enough
/// to be a slip, else the first that `typed` begins ("lumbar" for "lumbar_spine"). Nothing if none is close.
std::optional<std::string_view> nearest_name(std::string_view typed, std::span<const std::string_view> known);

}  // namespace jointledger
