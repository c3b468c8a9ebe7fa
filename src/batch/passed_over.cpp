#include "batch/passed_over.h"

#include <algorithm>
#include <filesystem>
#include <memory>
#include <system_error>
#include <variant>
#include <vector>

#include "intake/byte_stream.h"

namespace jointledger {
namespace {

constexpr std::size_t kChunk = std::size_t{256} << 10;

std::string_view without_break(std::string_view bytes) {
  if (bytes.ends_with('\n')) bytes.remove_suffix(1);
  if (bytes.ends_with('\r')) bytes.remove_suffix(1);
  return bytes;
}

/// Calls each() for the part of every chunk that lies in the place.
template <class Each>
void read_place(ByteStream& bytes, const PassedOver& place, Each each) {
  std::vector<char> chunk(kChunk);
  for (std::uint64_t offset = 0; offset < place.to;) {
    const auto result = bytes.read(chunk);
    const auto* count = std::get_if<std::size_t>(&result);
    if (count == nullptr || *count == 0) return;
    const std::uint64_t end = offset + *count;
    const std::uint64_t from = std::clamp(place.from, offset, end) - offset;
    const std::uint64_t to = std::min(place.to, end) - offset;
    if (from < to) each(std::string_view(chunk.data() + from, to - from));
    offset = end;
  }
}

}  // namespace

std::optional<PassedOver> passed_over(const Record& record, const Record* next) {
  std::error_code error;
  if (record.input == "-" || !std::filesystem::is_regular_file(record.input, error)) return std::nullopt;
  return PassedOver{record.input, record.place.offset, next != nullptr ? next->place.offset : PassedOver::kToTheEnd,
                    record.place.line > 0};
}

void read_again(const PassedOver& place, const std::function<void(std::string_view)>& each) {
  const auto opened = open_bytes(place.input);
  const auto* bytes = std::get_if<std::unique_ptr<ByteStream>>(&opened);
  if (bytes == nullptr) return;
  std::string last;  // two bytes that may turn out to be the line break
  read_place(**bytes, place, [&](std::string_view piece) {
    if (!place.ends_with_a_break) return each(piece);
    last.append(piece);
    const std::size_t sure = last.size() - std::min<std::size_t>(last.size(), 2);
    if (sure > 0) each(std::string_view(last).substr(0, sure));
    last.erase(0, sure);
  });
  const std::string_view rest = without_break(last);
  if (!rest.empty()) each(rest);
}

}  // namespace jointledger
