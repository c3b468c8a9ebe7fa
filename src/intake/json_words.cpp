#include "intake/json_words.h"

namespace jointledger {

std::string_view words_for(simdjson::error_code error) {
  switch (error) {
    case simdjson::UNCLOSED_STRING:
      return "a string is not closed";
    case simdjson::UNESCAPED_CHARS:
      return "a control character stands in a string";
    case simdjson::STRING_ERROR:
      return "a string has a bad escape";
    case simdjson::NUMBER_ERROR:
      return "a number is malformed or out of range";
    case simdjson::DEPTH_ERROR:
      return "it is nested too deeply";
    case simdjson::INCOMPLETE_ARRAY_OR_OBJECT:
      return "it ends before its braces close";
    case simdjson::MEMALLOC:
      return "there is not enough memory to read it";
    case simdjson::INCORRECT_TYPE:
    case simdjson::T_ATOM_ERROR:
    case simdjson::F_ATOM_ERROR:
    case simdjson::N_ATOM_ERROR:
      return "a value is malformed";
    default:
      return "a comma, colon, brace or value is missing or misplaced";
  }
}

}  // namespace jointledger
