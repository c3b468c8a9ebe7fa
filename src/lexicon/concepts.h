// What a phrase of the lexicon means. One row of a table in lexicon/ gives one Concept to all its forms.
//
// Plain immutable data, owned by the Lexicon and shared by all threads.
#pragma once

#include <boost/container/static_vector.hpp>
#include <cstdint>
#include <optional>
#include <string>

#include "ledger/terms.h"

namespace jointledger {

enum class ConceptKind : std::uint8_t {
  inert,              ///< set_phrases.tsv: words used in another sense, passed over whole
  elsewhere_place,    ///< elsewhere.tsv: a place that is no joint; what is said of it is left out
  elsewhere_finding,  ///< elsewhere.tsv: a finding of another system
  other_source,       ///< elsewhere.tsv: imaging or another study; a sentence about it is no finding at examination
  region,             ///< regions.tsv, sided_regions.tsv
  part,               ///< structures.tsv: belongs to a region
  muscle,             ///< structures.tsv: graded, it is the region's strength
  nerve,              ///< structures.tsv: where sensation or power is told, its limb
  artery,             ///< structures.tsv: with a pulse, it is the region's perfusion
  component,          ///< components.tsv: names a part of the exam without a result
  finding,            ///< findings.tsv
  motion,             ///< motions.tsv
  motion_muscle,      ///< motions.tsv: flexors, extensors ...
  test,               ///< tests.tsv
  side,               ///< sides.tsv
  cue,                ///< cues.tsv
  grammar,            ///< grammar.tsv
};

/// Whether a finding is bad news (tenderness), good news (nontender), or none: it could not be done ("unable to
/// stand"), or its figure is no judgement (a balance scale).
enum class Sense : std::uint8_t { bad, good, not_done, stated };

/// Where a remark counts that names no region.
enum class Admit : std::uint8_t {
  in_scope,  ///< under a heading that admits everything
  anywhere,  ///< also under headings of other systems (edema under Cardiovascular)
  region,    ///< only if a region is named or in force
};

enum class SideWord : std::uint8_t { left, right, both, midline, other, same, affected };

/// What a word does to the remark it stands in.
enum class Cue : std::uint8_t {
  no,         ///< denies what follows, to the end of its list
  not_,       ///< turns the next judgement or finding round
  absent,     ///< denies what stands before it; of a pulse, reflex or sense: abnormal
  none,       ///< an answer: denies the label it answers
  normal,     ///< a judgement that may stand alone ("Hips: normal")
  good,       ///< a judgement of a component
  present,    ///< normal of a pulse, reflex or sense; affirms a finding
  bad,        ///< a judgement: abnormal
  positive,   ///< of a test: abnormal
  negative,   ///< of a test: normal; before a list: denies it
  equivocal,  ///< examined, but no result
  tested,     ///< examined, result elsewhere or not given
  but,        ///< ends the reach of a denial
  except,     ///< turns round what follows
  rest,       ///< everything not named so far
  deferred,   ///< not done
  says,       ///< the patient's words follow
  same,       ///< as on the side before
  compared,   ///< the other side is named only to compare
  pain,       ///< pain, which counts by what brings it on
  palpating,  ///< ... pressing
  resisted,   ///< ... work against resistance
  loading,    ///< ... bearing weight
  extent,     ///< proximally, distally
  comparing,  ///< more, worse: both sides have it
  lacking,    ///< counts down from full motion
  testword,   ///< "test", "sign": may follow the name of a manoeuvre
  symmetric,  ///< a good judgement; by itself, of how a region looks
  equal,      ///< a good judgement of a pair
  equalled,   ///< the other side is named, and is alike
  stable,     ///< a good judgement; by itself, of a joint's stability
  strong,     ///< a good judgement; of muscles, motions and limbs it is one of power
  weak,       ///< ... a bad one
  brisk,      ///< normal of capillary refill, abnormal of a reflex
};

/// Bits: a small word can play several parts.
enum GrammarRole : std::uint16_t {
  kAnd = 1,
  kOr = 2,
  kAt = 4,    ///< a place may follow: over, of, in
  kWith = 8,  ///< what brings pain on may follow: with, on, during
  kVerb = 16,
  kFiller = 32,
  kAffirms = 64,  ///< an amount: after a comma it ends the reach of a denial
  kAbbreviation = 128,
  kFormer = 256,  ///< stands for the first of the places named before
  kLatter = 512,  ///< ... for the last of them
};

struct Concept {
  ConceptKind kind = ConceptKind::inert;
  std::optional<Region> region;         ///< its place, or the place when the note names none
  bool many = false;                    ///< a plural, which means both sides
  bool several = false;                 ///< a plural of parts that one limb has several of (fingers)
  std::optional<Region> second_region;  ///< "arms and legs"
  std::optional<Region> artery_region;  ///< where its pulse is felt, for a name that muscle and artery share
  bool exam = false;                    ///< "the musculoskeletal exam": of the whole body where it is judged as such
  bool back = false;                    ///< "back": the lumbar spine if that is what the visit is about
  bool joints = false;                  ///< "all joints": whole body, or the limbs under a limb heading
  std::optional<Region> reflex_region;
  std::optional<Region> leg_region;  ///< where a leg is in force: digits are toes then
  Component component = Component::unspecified;
  std::optional<Component> second_component;  ///< "neurovascular" is sensation and perfusion
  bool weak = false;                          ///< a component that counts only with a judgement of its own
  Admit admit = Admit::in_scope;
  Sense sense = Sense::bad;
  bool adjective = false;
  MotionSet motions;
  boost::container::static_vector<Region, 4> test_regions;  ///< its own first
  std::optional<SideWord> side;
  bool letter = false;  ///< a single capital that is a side only beside a region or a grade
  Cue cue = Cue::no;
  std::uint16_t grammar = 0;
  std::string id;  ///< structure or test id; of a finding its note ("mass", "sign"); empty for others
};

/// A word that tells what a visit is about: complaints.tsv.
struct ComplaintCue {
  enum class Use : std::uint8_t {
    symptom,
    vague,    ///< a symptom, but of no joint by itself: "trouble with"
    disease,  ///< a symptom in a reason for the visit or a diagnosis only
    injury,
    visit,
    again,  ///< a visit that follows another
    tells,
    past,  ///< what follows is of earlier times
    then,  ///< what stands before it and after it is of earlier times
    now,   ///< ends what `past` says
    turn,  ///< ends what `past` and `denial` say
    spread,
    gone,
    ended,  ///< gone, and with it what the sentence before told
    denial,
    general,
    organ,  ///< a place that is none of a joint: "bladder neck"
    named,
    half,   ///< weakness or numbness of one half of the body
    study,  ///< an imaging study
  };
  Use use = Use::symptom;
  std::optional<Region> region;  ///< of Use::named
  Side side = Side::unstated;
};

/// What text stands under a heading.
enum class SectionKind : std::uint8_t {
  none,
  exam,
  history,
  complaint,
  ros,
  past,
  data,
  plan,
  procedure,
  diagnosis,   ///< with which the patient comes: before an operation, at admission
  indication,  ///< why a procedure is done
  course,      ///< of a stay in hospital
  other,
};

enum class Admits : std::uint8_t { all, anywhere, explicit_only, nothing };

struct Heading {
  enum class Level : std::uint8_t {
    section,  ///< starts a section of the kind
    system,   ///< a heading inside an exam or a review of systems
    part,     ///< a component heading; the region in force stays
  };
  Level level = Level::system;
  SectionKind section = SectionKind::none;  ///< for Level::section
  std::optional<Region> region;
  bool joints = false;
  bool back = false;
  std::optional<Component> component;
  Admits admits = Admits::all;
};

}  // namespace jointledger
