#include "app/progress.h"

#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>
#include <spdlog/fmt/fmt.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>

namespace jointledger {
namespace {

constexpr double kMega = 1e6;
constexpr auto kLineEvery = std::chrono::milliseconds(250);
constexpr auto kJsonEvery = std::chrono::seconds(1);
constexpr std::string_view kEraseLine = "\r\x1b[K";

/// 1234567 as "1,234,567".
std::string grouped(std::uint64_t number) {
  const std::string digits = std::to_string(number);
  std::string text;
  for (std::size_t at = 0; at < digits.size(); ++at) {
    if (at > 0 && (digits.size() - at) % 3 == 0) text.push_back(',');
    text.push_back(digits[at]);
  }
  return text;
}

double per_second(const Pace& pace, std::uint64_t now, std::uint64_t before) {
  return pace.seconds > 0 && now > before ? static_cast<double>(now - before) / pace.seconds : 0.0;
}

double bytes_per_second(const Pace& pace) { return per_second(pace, pace.counts.bytes, pace.before.bytes); }

std::optional<std::uint64_t> seconds_left(const Pace& pace) {
  const double rate = bytes_per_second(pace);
  if (pace.bytes_total == 0 || rate <= 0) return std::nullopt;
  const std::uint64_t rest = pace.bytes_total - std::min(pace.bytes_total, pace.counts.bytes);
  return static_cast<std::uint64_t>(std::ceil(static_cast<double>(rest) / rate));
}

/// "1:05", "2:00:00".
std::string clock_time(std::uint64_t seconds) {
  const std::uint64_t hours = seconds / 3600;
  const std::uint64_t minutes = seconds / 60 % 60;
  return hours > 0 ? fmt::format("{}:{:02}:{:02}", hours, minutes, seconds % 60)
                   : fmt::format("{}:{:02}", minutes, seconds % 60);
}

double share_with_gaps(const BatchCounts& counts) {
  return counts.answered == 0 ? 0.0 : static_cast<double>(counts.with_gaps) / static_cast<double>(counts.answered);
}

double rounded(double value, double digits) { return std::round(value * digits) / digits; }

/// The standard error may be closed, which is no reason to stop.
void say(std::string_view text) {
  while (!text.empty()) {
    const ssize_t count = ::write(STDERR_FILENO, text.data(), text.size());
    if (count <= 0) return;
    text.remove_prefix(static_cast<std::size_t>(count));
  }
}

}  // namespace

std::string progress_line(const Pace& pace) {
  std::string line = fmt::format("{} notes, {:.1f} MB/s", grouped(pace.counts.read), bytes_per_second(pace) / kMega);
  if (pace.audits) line += fmt::format(", {:.0f} % with gaps", 100 * share_with_gaps(pace.counts));
  if (pace.counts.set_aside > 0) line += fmt::format(", {} set aside", grouped(pace.counts.set_aside));
  if (const auto left = seconds_left(pace)) line += fmt::format(", {} left", clock_time(*left));
  return line;
}

std::string progress_json(const Pace& pace, int status) {
  rapidjson::StringBuffer buffer;
  rapidjson::Writer writer(buffer);
  const auto number = [&](const char* key, std::uint64_t value) {
    writer.Key(key);
    writer.Uint64(value);
  };
  const auto fraction = [&](const char* key, double value, double digits) {
    writer.Key(key);
    writer.Double(rounded(value, digits));
  };
  writer.StartObject();
  writer.Key("event");
  writer.String(status < 0 ? "progress" : "end");
  number("read", pace.counts.read);
  number(pace.audits ? "audited" : "written", pace.counts.answered);
  number("set_aside", pace.counts.set_aside);
  if (pace.audits) {
    number("with_gaps", pace.counts.with_gaps);
    fraction("share_with_gaps", share_with_gaps(pace.counts), 1e4);
  }
  number("bytes", pace.counts.bytes);
  fraction("seconds", pace.seconds, 1e3);
  fraction("notes_per_second", per_second(pace, pace.counts.read, pace.before.read), 1e1);
  fraction("mb_per_second", bytes_per_second(pace) / kMega, 1e3);
  if (status < 0) {
    writer.Key("seconds_left");
    const auto left = seconds_left(pace);
    if (left) {
      writer.Uint64(*left);
    } else {
      writer.Null();
    }
  } else {
    number("status", static_cast<std::uint64_t>(status));
  }
  writer.EndObject();
  return std::string(buffer.GetString(), buffer.GetSize()) + "\n";
}

std::string summary_of(const BatchCounts& counts, bool audits) {
  return fmt::format("{} read, {} {}, {} set aside", counts.read, counts.answered, audits ? "audited" : "written",
                     counts.set_aside);
}

Progress::Progress(ProgressKind kind, bool audits, const BatchCounts& before, std::uint64_t bytes_total)
    : kind_(kind), audits_(audits), before_(before), bytes_total_(bytes_total) {}

Pace Progress::pace_at(Clock::time_point now, const BatchCounts& counts) const {
  return {counts, before_, std::chrono::duration<double>(now - begun_).count(), bytes_total_, audits_};
}

void Progress::tick(const BatchCounts& counts) {
  if (kind_ == ProgressKind::none) return;
  const Clock::time_point now = Clock::now();
  if (now - last_ < (kind_ == ProgressKind::line ? Clock::duration(kLineEvery) : Clock::duration(kJsonEvery))) return;
  last_ = now;
  const Pace pace = pace_at(now, counts);
  if (kind_ == ProgressKind::json) return say(progress_json(pace, -1));
  shown_ = true;
  say(std::string(kEraseLine).append(progress_line(pace)));
}

void Progress::clear() {
  if (shown_) say(kEraseLine);
  shown_ = false;
}

void Progress::finish(const BatchCounts& counts, int status) {
  clear();
  if (kind_ == ProgressKind::json) say(progress_json(pace_at(Clock::now(), counts), status));
}

}  // namespace jointledger
