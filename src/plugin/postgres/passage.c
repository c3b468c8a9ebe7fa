#include "passage.h"

static uint32 characters_in(const NoteText* note, jointledger_span span) {
  return characters_before(note, span.end) - characters_before(note, span.start);
}

static bool begins_character(const NoteText* note, uint32 at) {
  return at >= note->size || ((unsigned char)note->utf8[at] & 0xC0U) != 0x80U;
}

static bool is_space(const NoteText* note, uint32 at) {
  const char c = note->utf8[at];

  return c == ' ' || c == '\n' || c == '\r' || c == '\t';
}

/* Where the character `count` characters after byte `at` begins, or the end. */
static uint32 forward(const NoteText* note, uint32 at, uint32 count) {
  for (; count > 0 && at < note->size; --count) {
    do ++at;
    while (!begins_character(note, at));
  }
  return at;
}

/* Where the character `count` characters before byte `at` begins, or the start. */
static uint32 backward(const NoteText* note, uint32 at, uint32 count) {
  for (; count > 0 && at > 0; --count) {
    do --at;
    while (at > 0 && !begins_character(note, at));
  }
  return at;
}

jointledger_span passage_of(const NoteText* note, const jointledger_span* evidence, size_t count, uint32 longest) {
  jointledger_span best = evidence[0];
  uint32 most = 0;
  uint32 held = 0; /* bytes of the pieces from first to last */
  size_t first = 0;

  for (size_t last = 0; last < count; ++last) {
    jointledger_span stretch = {evidence[first].start, evidence[last].end};

    held += evidence[last].end - evidence[last].start;
    while (first < last && characters_in(note, stretch) > longest) {
      held -= evidence[first].end - evidence[first].start;
      stretch.start = evidence[++first].start;
    }
    if (held > most) {
      most = held;
      best = stretch;
    }
  }
  if (characters_in(note, best) > longest) best.end = forward(note, best.start, longest);
  return best;
}

jointledger_span surroundings_of(const NoteText* note, jointledger_span passage, uint32 longest) {
  const uint32 spare = longest - Min(longest, characters_in(note, passage));
  uint32 start = backward(note, passage.start, spare / 2);
  uint32 end = forward(note, passage.end, spare - spare / 2);

  /* A word that is cut is left out, as is white space at the ends. */
  if (start > 0 && !is_space(note, start - 1)) {
    while (start < passage.start && !is_space(note, start)) ++start;
  }
  while (start < passage.start && is_space(note, start)) ++start;
  if (end < note->size && !is_space(note, end)) {
    while (end > passage.end && !is_space(note, end - 1)) --end;
  }
  while (end > passage.end && is_space(note, end - 1)) --end;
  return (jointledger_span){start, end};
}
