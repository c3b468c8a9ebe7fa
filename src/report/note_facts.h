// What some formats need to know of a note beside its text, where the source told it. Pure functions.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "intake/note.h"

namespace jointledger {

/// The value of a member that is a string or a number, without quotes or escapes; empty where it is neither, or is
/// not there.
std::string text_member_of(const Note& note, std::string_view key);

/// The day of a note by its member "date", YYYY-MM-DD; empty where that does not begin with a day.
std::string day_of(const Note& note);

/// The id as a whole number without a sign, as databases count their rows; nothing where it is something else.
std::optional<std::uint64_t> number_id_of(const Note& note);

}  // namespace jointledger
