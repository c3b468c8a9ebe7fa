#include "audit/checks.h"

#include <array>

namespace jointledger {
namespace {

using namespace std::string_view_literals;

constexpr std::array<std::string_view, kCheckCount> kNames = {
    "contradiction"sv, "side-conflict"sv, "implausible-value"sv, "missing-joint"sv, "side-slip"sv, "copied-exam"sv};

constexpr std::array<std::string_view, kCheckCount> kPhrases = {
    "the same thing recorded as normal and as abnormal, without a word of change"sv,
    "the complaint, the exam and the assessment are not of the same side"sv,
    "a motion beyond what the joint can do, or a grade off its scale"sv,
    "a joint said to be gone or fused, and examined as normal"sv,
    "the other side named under a heading with a side"sv,
    "an exam that repeats that of an earlier note"sv,
};

}  // namespace

std::string_view name(Check value) { return kNames[static_cast<std::size_t>(value)]; }
std::span<const std::string_view> check_names() { return kNames; }
std::string_view phrase(Check value) { return kPhrases[static_cast<std::size_t>(value)]; }

}  // namespace jointledger
