#include "audit/profile.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <system_error>
#include <utility>

namespace jointledger {
namespace {

using namespace std::string_view_literals;

constexpr std::array kApplies = {"always"sv, "if_examined"sv, "if_complaint"sv, "if_injury"sv, "if_neighbour"sv};
constexpr std::array kSides = {"region_default"sv, "both"sv, "complaint_side"sv, "other_side"sv, "any"sv};
constexpr std::array kSpecificities = {"region"sv, "limb"sv, "whole_body"sv};
constexpr std::array kKinds = {"required"sv, "advised"sv};

std::vector<ProfileFault> unreadable(const std::filesystem::path& path, std::string_view what) {
  return {{path.string(), 0, std::string("cannot read this ").append(what)}};
}

}  // namespace

std::string_view name(Applies value) { return kApplies[static_cast<std::size_t>(value)]; }
std::string_view name(Sides value) { return kSides[static_cast<std::size_t>(value)]; }
std::string_view name(Specificity value) { return kSpecificities[static_cast<std::size_t>(value)]; }
std::string_view name(Kind value) { return kKinds[static_cast<std::size_t>(value)]; }

std::span<const std::string_view> applies_names() { return kApplies; }
std::span<const std::string_view> sides_names() { return kSides; }
std::span<const std::string_view> specificity_names() { return kSpecificities; }
std::span<const std::string_view> kind_names() { return kKinds; }

ProfileOrFaults load_profile(const std::filesystem::path& file, const ProfileChecks& checks) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(file, error)) return unreadable(file, "file");
  std::ifstream stream(file, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  if (!stream) return unreadable(file, "file");
  return parse_profile(text, file.string(), checks);
}

ProfileShelf load_profiles(const std::filesystem::path& folder, const ProfileChecks& checks) {
  ProfileShelf shelf;
  std::error_code error;
  std::vector<std::filesystem::path> files;
  std::filesystem::directory_iterator at(folder, error);
  for (const std::filesystem::directory_iterator end; !error && at != end; at.increment(error)) {
    if (at->path().extension() == ".toml") files.push_back(at->path());
  }
  if (error) {
    shelf.faults = unreadable(folder, "folder");
    return shelf;
  }

  // A profile's name is its file's stem, so files in order are profiles in order.
  std::ranges::sort(files, {}, [](const std::filesystem::path& file) { return file.stem().string(); });
  for (const std::filesystem::path& file : files) {
    ProfileOrFaults loaded = load_profile(file, checks);
    if (auto* profile = std::get_if<Profile>(&loaded)) {
      shelf.profiles.push_back(std::move(*profile));
    } else {
      std::ranges::move(std::get<std::vector<ProfileFault>>(loaded), std::back_inserter(shelf.faults));
    }
  }
  return shelf;
}

}  // namespace jointledger
