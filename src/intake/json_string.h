// Writing JSON into a string that is there already.
#pragma once

#include <rapidjson/writer.h>

#include <string>
#include <string_view>

namespace jointledger {

/// A rapidjson output stream that appends to a string.
struct StringSink {
  using Ch = char;
  std::string& out;
  void Put(char c) { out.push_back(c); }
  void Flush() {}
};

/// Appends `text`, which is UTF-8, as a JSON string.
inline void append_json_string(std::string_view text, std::string& out) {
  StringSink sink{out};
  rapidjson::Writer<StringSink> writer(sink);
  writer.String(text.data(), static_cast<rapidjson::SizeType>(text.size()));
}

}  // namespace jointledger
