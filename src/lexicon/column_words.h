// The words that the tables of lexicon/ use in their columns, and what each means.
//
// Private to the loader.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "lexicon/concepts.h"
#include "lexicon/measures.h"
#include "lexicon/remark_words.h"

namespace jointledger {

template <class Value>
struct Named {
  std::string_view name;
  Value value;
};

template <class Value, std::size_t N>
std::optional<Value> find_named(const std::array<Named<Value>, N>& set, std::string_view text) {
  for (const auto& [name, value] : set) {
    if (name == text) return value;
  }
  return std::nullopt;
}

inline constexpr std::array<Named<Cue>, 25> kCues = {{
    {"no", Cue::no},
    {"not", Cue::not_},
    {"absent", Cue::absent},
    {"none", Cue::none},
    {"normal", Cue::normal},
    {"good", Cue::good},
    {"present", Cue::present},
    {"bad", Cue::bad},
    {"positive", Cue::positive},
    {"negative", Cue::negative},
    {"equivocal", Cue::equivocal},
    {"tested", Cue::tested},
    {"but", Cue::but},
    {"except", Cue::except},
    {"rest", Cue::rest},
    {"deferred", Cue::deferred},
    {"says", Cue::says},
    {"same", Cue::same},
    {"compared", Cue::compared},
    {"pain", Cue::pain},
    {"palpating", Cue::palpating},
    {"resisted", Cue::resisted},
    {"loading", Cue::loading},
    {"extent", Cue::extent},
    {"comparing", Cue::comparing},
}};
inline constexpr std::array<Named<Cue>, 9> kMoreCues = {{{"lacking", Cue::lacking},
                                                         {"testword", Cue::testword},
                                                         {"brisk", Cue::brisk},
                                                         {"symmetric", Cue::symmetric},
                                                         {"equal", Cue::equal},
                                                         {"equalled", Cue::equalled},
                                                         {"stable", Cue::stable},
                                                         {"strong", Cue::strong},
                                                         {"weak", Cue::weak}}};

inline constexpr std::array<Named<Sense>, 4> kSenses = {
    {{"bad", Sense::bad}, {"good", Sense::good}, {"not_done", Sense::not_done}, {"stated", Sense::stated}}};

inline constexpr std::array<Named<SideWord>, 7> kSideWords = {{{"left", SideWord::left},
                                                               {"right", SideWord::right},
                                                               {"both", SideWord::both},
                                                               {"midline", SideWord::midline},
                                                               {"other", SideWord::other},
                                                               {"same", SideWord::same},
                                                               {"affected", SideWord::affected}}};

inline constexpr std::array<Named<std::uint16_t>, 10> kRoles = {{{"and", kAnd},
                                                                 {"or", kOr},
                                                                 {"at", kAt},
                                                                 {"with", kWith},
                                                                 {"verb", kVerb},
                                                                 {"filler", kFiller},
                                                                 {"affirms", kAffirms},
                                                                 {"abbreviation", kAbbreviation},
                                                                 {"former", kFormer},
                                                                 {"latter", kLatter}}};

inline constexpr std::array<Named<FigureKind>, 7> kFigures = {{{"skip", FigureKind::skip},
                                                               {"ratio", FigureKind::ratio},
                                                               {"grade", FigureKind::grade},
                                                               {"plus_grade", FigureKind::plus_grade},
                                                               {"pair", FigureKind::pair},
                                                               {"range", FigureKind::range},
                                                               {"degrees", FigureKind::degrees}}};

inline constexpr std::array<Named<SectionKind>, 13> kSections = {{{"exam", SectionKind::exam},
                                                                  {"history", SectionKind::history},
                                                                  {"complaint", SectionKind::complaint},
                                                                  {"ros", SectionKind::ros},
                                                                  {"past", SectionKind::past},
                                                                  {"data", SectionKind::data},
                                                                  {"plan", SectionKind::plan},
                                                                  {"procedure", SectionKind::procedure},
                                                                  {"diagnosis", SectionKind::diagnosis},
                                                                  {"indication", SectionKind::indication},
                                                                  {"course", SectionKind::course},
                                                                  {"other", SectionKind::other},
                                                                  {"none", SectionKind::none}}};

inline constexpr std::array<Named<ComplaintCue::Use>, 20> kUses = {
    {{"symptom", ComplaintCue::Use::symptom}, {"vague", ComplaintCue::Use::vague},
     {"disease", ComplaintCue::Use::disease}, {"injury", ComplaintCue::Use::injury},
     {"visit", ComplaintCue::Use::visit},     {"again", ComplaintCue::Use::again},
     {"tells", ComplaintCue::Use::tells},     {"past", ComplaintCue::Use::past},
     {"then", ComplaintCue::Use::then},       {"now", ComplaintCue::Use::now},
     {"turn", ComplaintCue::Use::turn},       {"spread", ComplaintCue::Use::spread},
     {"gone", ComplaintCue::Use::gone},       {"ended", ComplaintCue::Use::ended},
     {"denial", ComplaintCue::Use::denial},   {"general", ComplaintCue::Use::general},
     {"organ", ComplaintCue::Use::organ},     {"named", ComplaintCue::Use::named},
     {"half", ComplaintCue::Use::half},       {"study", ComplaintCue::Use::study}}};

inline constexpr std::array<Named<RemarkWord::Use>, 6> kRemarkUses = {{{"finding", RemarkWord::Use::finding},
                                                                       {"narrows", RemarkWord::Use::narrows},
                                                                       {"change", RemarkWord::Use::change},
                                                                       {"hedge", RemarkWord::Use::hedge},
                                                                       {"pain", RemarkWord::Use::pain},
                                                                       {"compared", RemarkWord::Use::compared}}};

inline constexpr std::array<Named<JointStateWord::Use>, 3> kStateUses = {{{"absent", JointStateWord::Use::absent},
                                                                          {"fused", JointStateWord::Use::fused},
                                                                          {"excuse", JointStateWord::Use::excuse}}};

inline constexpr std::array<Named<Admits>, 4> kAdmits = {{{"all", Admits::all},
                                                          {"anywhere", Admits::anywhere},
                                                          {"explicit", Admits::explicit_only},
                                                          {"nothing", Admits::nothing}}};

inline constexpr std::array<Named<Admit>, 3> kAdmit = {
    {{"", Admit::in_scope}, {"anywhere", Admit::anywhere}, {"region", Admit::region}}};

}  // namespace jointledger
