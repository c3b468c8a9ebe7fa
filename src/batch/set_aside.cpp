#include "batch/set_aside.h"

#include <nettle/base64.h>
#include <simdjson.h>

#include <cstddef>

#include "intake/base64.h"
#include "intake/json_string.h"
#include "text/utf8.h"

namespace jointledger {
namespace {

/// A name may come from a file system or a broken note.
std::string_view as_utf8(std::string_view text) {
  return text.substr(0, first_invalid_utf8(text).value_or(text.size()));
}

/// Everything up to the record itself.
void append_head(const RecordFault& fault, std::string& out) {
  append_json_string(as_utf8(fault.record), out.append("{\"record\":"));
  out.append(",\"line\":").append(std::to_string(fault.place.line));
  out.append(",\"offset\":").append(std::to_string(fault.place.offset));
  append_json_string(as_utf8(fault.reason), out.append(",\"reason\":"));
}

/// Base64 of bytes that come in pieces.
class Base64Encoder {
 public:
  Base64Encoder() { base64_encode_init(&context_); }

  void append(std::string_view bytes, std::string& out) {
    const std::size_t before = out.size();
    out.resize(before + BASE64_ENCODE_LENGTH(bytes.size()) + 1);
    const std::size_t count = base64_encode_update(&context_, out.data() + before, bytes.size(),
                                                   reinterpret_cast<const uint8_t*>(bytes.data()));
    out.resize(before + count);
  }

  void finish(std::string& out) {
    const std::size_t before = out.size();
    out.resize(before + BASE64_ENCODE_FINAL_LENGTH);
    out.resize(before + base64_encode_final(&context_, out.data() + before));
  }

 private:
  base64_encode_ctx context_;
};

}  // namespace

void append_set_aside(const RecordFault& fault, const std::string* bytes, std::string& out) {
  append_head(fault, out);
  if (bytes == nullptr) {
    out.append(",\"bytes\":null");
  } else if (first_invalid_utf8(*bytes)) {
    Base64Encoder encoder;
    encoder.append(*bytes, out.append(",\"base64\":\""));
    encoder.finish(out);
    out.push_back('"');
  } else {
    append_json_string(*bytes, out.append(",\"bytes\":"));
  }
  out.append("}\n");
}

void write_set_aside(const RecordFault& fault, const PassedOver& place,
                     const std::function<void(std::string_view)>& write) {
  std::string text;
  append_head(fault, text);
  Base64Encoder encoder;
  bool any = false;
  read_again(place, [&](std::string_view piece) {
    if (!any) text.append(",\"base64\":\"");
    any = true;
    encoder.append(piece, text);
    write(text);
    text.clear();
  });
  if (any) {
    encoder.finish(text);
    text.append("\"}\n");
  } else {
    text.append(",\"bytes\":null}\n");
  }
  write(text);
}

std::variant<SetAside, std::string> read_set_aside(std::string_view line) {
  simdjson::dom::parser parser;
  simdjson::dom::object object;
  std::string_view record;
  std::string_view reason;
  SetAside result;
  if (parser.parse(line.data(), line.size()).get(object) != simdjson::SUCCESS) return "it is not JSON";
  if (object["record"].get(record) != simdjson::SUCCESS || object["reason"].get(reason) != simdjson::SUCCESS ||
      object["line"].get(result.fault.place.line) != simdjson::SUCCESS ||
      object["offset"].get(result.fault.place.offset) != simdjson::SUCCESS) {
    return "it is not a record that was set aside";
  }
  result.fault.record = record;
  result.fault.reason = reason;
  std::string_view text;
  if (object["base64"].get(text) == simdjson::SUCCESS) {
    if (!from_base64(text, result.bytes.emplace())) return "its base64 is damaged";
  } else if (object["bytes"].get(text) == simdjson::SUCCESS) {
    result.bytes = text;
  } else if (!object["bytes"].is_null()) {
    return "it is not a record that was set aside";
  }
  return result;
}

}  // namespace jointledger
