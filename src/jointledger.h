/*
 * Jointledger: reads free-text joint exam notes into a ledger, and audits the ledger against a profile.
 *
 * This is the one interface for programs that are not Jointledger's own: plain C (C99 and later, and C++), no
 * exceptions, no C++ types. Link with -ljointledger; compiler flags come from pkg-config (`jointledger`) or from CMake
 * (`find_package(Jointledger)`, target `jointledger::jointledger`).
 *
 *     jointledger_engine *engine = NULL;
 *     jointledger_scratch *scratch = NULL;
 *     const jointledger_ledger *ledger = NULL;
 *     const jointledger_audit *audit = NULL;
 *
 *     jointledger_engine_open(NULL, &engine, NULL);                               once
 *     jointledger_scratch_new(&scratch);                                          once a thread
 *     jointledger_read(engine, scratch, text, text_size, &ledger);                each note
 *     jointledger_audit_ledger(scratch, "complaint", 9, NULL, &audit);            as many profiles as are wanted
 *
 * WHAT IT IS NOT. It audits documentation, not care, and makes no diagnosis. Entries say what a text says; prompts have
 * blanks and never state a finding. Show `audit->notice` with what you show of an audit.
 *
 * PRIVACY. Note text goes nowhere: not to files, logs or the network, and not into the text of any error. The library
 * writes nothing to the standard streams.
 *
 * THREADS. An engine is shared by all threads, without any lock of the caller's. A scratch is used by one thread at a
 * time; it may go from one thread to another, and any thread may free it. The library starts no threads, keeps no
 * global state and sets no signal handler.
 *
 * MEMORY. What a call hands out belongs to the scratch that the call was given, and holds until the time that the call
 * names. It is `const`, lies still, and may be read from any thread while it holds. To keep a result, keep its scratch
 * and work on with another one. The one exception is the text of jointledger_engine_open() and
 * jointledger_engine_reload(), which the caller frees with jointledger_text_free(). A scratch keeps the
 * memory that reading the longest note so far has taken, and works on in it; free the scratch to give it back.
 *
 * TEXT. All text is UTF-8. What goes in is a pointer and a size in bytes, and need not end in a NUL. What comes out as
 * `const char *` ends in a NUL, and is never NULL unless its description says so. Paths are the one exception: they go
 * in as the system's calls take them, ending in a NUL.
 *
 * ERRORS. A function that can fail returns an `enum jointledger_code` as int, 0 for success. After a failure its out
 * parameters are NULL (sizes are 0), and jointledger_scratch_message() has a sentence on what is wrong and where.
 * Arguments are checked: a NULL where there may be none is JOINTLEDGER_BAD_ARGUMENT, not a crash. Out parameters may be
 * NULL where the caller has no use for them, but for those that return a new handle.
 *
 * VERSIONS. The shared library's soname carries JOINTLEDGER_ABI_VERSION. Within one ABI version no function, value or
 * member changes its meaning, place or size; functions and values are added at the end. So treat a value that you do
 * not know as one that a later version has added. Structures that go in begin with their own size, so that they can
 * grow. While the version is 0.x, a minor version may raise the ABI version.
 */
#ifndef JOINTLEDGER_H
#define JOINTLEDGER_H

#include <stddef.h>
#include <stdint.h>

#define JOINTLEDGER_VERSION "0.1.0"
/** major * 1000000 + minor * 1000 + patch */
#define JOINTLEDGER_VERSION_NUMBER 1000
#define JOINTLEDGER_ABI_VERSION 0

/** The longest note, and the longest record, in bytes: 64 MiB. */
#define JOINTLEDGER_LONGEST_NOTE 67108864

/** Stands in a member for a value that is not there. */
#define JOINTLEDGER_NONE (-1)

#if defined(__GNUC__)
#define JOINTLEDGER_API __attribute__((visibility("default")))
#else
#define JOINTLEDGER_API
#endif
#ifdef __cplusplus
#define JOINTLEDGER_NOEXCEPT noexcept
extern "C" {
#else
#define JOINTLEDGER_NOEXCEPT
#endif

/* ---------------------------------------------------------------------------------------------------- versions --- */

/**
 * The ABI version of the library that is loaded. It equals JOINTLEDGER_ABI_VERSION wherever the dynamic linker chose
 * the library by its soname; a program that loads it by path should compare.
 */
JOINTLEDGER_API int jointledger_abi_version(void) JOINTLEDGER_NOEXCEPT;

/** The version of the library that is loaded, as JOINTLEDGER_VERSION and as JOINTLEDGER_VERSION_NUMBER. Static. */
JOINTLEDGER_API const char* jointledger_version(void) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API int jointledger_version_number(void) JOINTLEDGER_NOEXCEPT;

/* ------------------------------------------------------------------------------------------------------- errors --- */

enum jointledger_code {
  JOINTLEDGER_OK = 0,
  JOINTLEDGER_BAD_ARGUMENT = 1, /**< a pointer is NULL, or a value out of its range: a mistake in the calling program */
  JOINTLEDGER_NO_MEMORY = 2,    /**< not enough memory; what was there before the call is as it was, or empty */
  JOINTLEDGER_BAD_TEXT = 3,     /**< a text is not UTF-8, has a NUL byte, or is nothing but white space */
  JOINTLEDGER_TOO_LONG = 4,     /**< longer than JOINTLEDGER_LONGEST_NOTE */
  JOINTLEDGER_BAD_RECORD = 5,   /**< a record is not the JSON object that it should be */
  JOINTLEDGER_NO_PROFILE = 6,   /**< the engine has no profile of that name */
  JOINTLEDGER_NO_DATA = 7,      /**< a folder of words or rules is not there */
  JOINTLEDGER_BAD_DATA = 8,     /**< a table or profile has faults; each has been told with file and line */
  JOINTLEDGER_NOT_READ = 9,     /**< the scratch holds no ledger: nothing was read with it, or that failed */
  JOINTLEDGER_BUSY = 10,        /**< another call uses this scratch right now */
  JOINTLEDGER_INTERRUPTED = 11, /**< the caller asked to stop */
  JOINTLEDGER_INTERNAL = 12     /**< an error that should not happen: please report it */
};

/** What the code means, a few words in English. Static; for a value that is no code, "unknown code". */
JOINTLEDGER_API const char* jointledger_code_text(int code) JOINTLEDGER_NOEXCEPT;

/* ------------------------------------------------------------------------------------------------------ engines --- */

/**
 * The words (lexicon) and the rules (profiles), loaded and checked. Shared by all threads.
 */
typedef struct jointledger_engine jointledger_engine;

enum jointledger_engine_flag {
  JOINTLEDGER_OWN_LEXICON_ONLY = 1, /**< the folders of `lexicon` stand alone instead of over what was installed */
  JOINTLEDGER_OWN_RULES_ONLY = 2    /**< the folders of `rules` stand alone likewise */
};

/**
 * Where an engine finds its data. Begin with all zero and set `size`:
 *
 *     jointledger_engine_options options = {sizeof options};
 */
typedef struct jointledger_engine_options {
  size_t size; /**< sizeof(jointledger_engine_options) */
  /**
   * The folder that holds lexicon/ and rules/. NULL: the one that the environment variable JOINTLEDGER_DATA names; if
   * that is not set, share/jointledger beside the folder of the library, wherever that was moved to; else where the
   * build was to be installed.
   */
  const char* data;
  /** Folders of a site's own word tables, laid over what ships; of several the last one wins. */
  const char* const* lexicon;
  size_t lexicon_count;
  /** Folders of a site's own profiles; a profile replaces the one of the same name, whole. */
  const char* const* rules;
  size_t rules_count;
  unsigned flags; /**< enum jointledger_engine_flag, or'ed */
} jointledger_engine_options;

/**
 * Loads the lexicon and all profiles. `options` NULL: what was installed.
 *
 * Strict: any fault in any table or profile fails the call, since an engine that silently left out a site's own rules
 * would audit against others. `faults`, if not NULL, receives what is wrong as text, a line each ("rules/ours.toml:12:
 * unknown region ..."), to be freed with jointledger_text_free(); after a success NULL, or warnings of rows without
 * effect. The tables and profiles may be changed or deleted once the call has returned.
 *
 * Returns JOINTLEDGER_OK, BAD_ARGUMENT, NO_DATA, BAD_DATA or NO_MEMORY. Takes some milliseconds. Thread-safe as long as
 * no thread changes the environment meanwhile.
 */
JOINTLEDGER_API int jointledger_engine_open(const jointledger_engine_options* options, jointledger_engine** engine,
                                            char** faults) JOINTLEDGER_NOEXCEPT;

/**
 * Loads words and rules anew and puts them in force, while other threads go on working with the engine: builds the new,
 * swaps, and lets go of the old once nothing that was read with it holds any more. A call uses either the old data or
 * the new, never a mixture; the audit of a ledger uses the data that the ledger was read with. If anything is wrong
 * with the new data, the old stays in force.
 *
 * `options` NULL: as they were last given to open or reload this engine. Of several reloads at once, the one that ends
 * last holds. Else as jointledger_engine_open().
 */
JOINTLEDGER_API int jointledger_engine_reload(jointledger_engine* engine, const jointledger_engine_options* options,
                                              char** faults) JOINTLEDGER_NOEXCEPT;

/**
 * Counts one more, or one less, who uses the engine; jointledger_engine_open() counts one. The last release frees the
 * engine. Results that were made with it hold on by themselves. Thread-safe. NULL is let pass; retain returns its
 * argument.
 */
JOINTLEDGER_API jointledger_engine* jointledger_engine_retain(jointledger_engine* engine) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API void jointledger_engine_release(jointledger_engine* engine) JOINTLEDGER_NOEXCEPT;

/** Frees the text of jointledger_engine_open() and jointledger_engine_reload(). Any thread; NULL is let pass. */
JOINTLEDGER_API void jointledger_text_free(char* text) JOINTLEDGER_NOEXCEPT;

/* ---------------------------------------------------------------------------------------------------- scratches --- */

/**
 * The working memory of one thread, and the results of its last calls. Belongs to no engine: it may be used with any,
 * in any order.
 */
typedef struct jointledger_scratch jointledger_scratch;

JOINTLEDGER_API int jointledger_scratch_new(jointledger_scratch** scratch) JOINTLEDGER_NOEXCEPT;

/** Frees it with all results in it. Any thread, but not while a call uses it. NULL is let pass. */
JOINTLEDGER_API void jointledger_scratch_free(jointledger_scratch* scratch) JOINTLEDGER_NOEXCEPT;

/**
 * What went wrong with the last call that was given this scratch, with the place if there is one ("not UTF-8 from byte
 * 17 of the text"); empty after a success. Holds until the next call with this scratch; after JOINTLEDGER_BUSY it is
 * that other call's, and not to be looked at. Never quotes a note.
 */
JOINTLEDGER_API const char* jointledger_scratch_message(const jointledger_scratch* scratch) JOINTLEDGER_NOEXCEPT;

/**
 * Asks to stop what this scratch is used for: the call under way, and each call after it, returns
 * JOINTLEDGER_INTERRUPTED until jointledger_scratch_resume() is called. (It holds on so that a request that comes a
 * moment before the call is not lost.) An ordinary note is done before it would matter; a longer one stops at the
 * end of a sentence, and one of tens of megabytes, at worst, some seconds later. A call that is nearly done may succeed
 * all the same.
 *
 * May be called from any thread at any time, and from a signal handler, as long as the scratch is not freed meanwhile.
 */
JOINTLEDGER_API void jointledger_scratch_interrupt(jointledger_scratch* scratch) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API void jointledger_scratch_resume(jointledger_scratch* scratch) JOINTLEDGER_NOEXCEPT;

/**
 * The same for a host that can only be asked (a database's flag of a pending interrupt, an interpreter's signals):
 * `stop` is called now and then by the thread that reads, about once a sentence, with `context`; if it returns other
 * than 0, that call ends with JOINTLEDGER_INTERRUPTED. It must be quick, return (no longjmp, no exception), and use
 * this scratch for nothing. `stop` NULL: nobody is asked, as at first.
 *
 * Returns JOINTLEDGER_OK, BAD_ARGUMENT or BUSY.
 */
JOINTLEDGER_API int jointledger_scratch_watch(jointledger_scratch* scratch, int (*stop)(void* context),
                                              void* context) JOINTLEDGER_NOEXCEPT;

/**
 * Compares the exams of the records that this scratch is given from now on, as the command line does within one run:
 * an exam that repeats an earlier one of the same author or patient (members "author" and "patient" of the record) is
 * then an inconsistency of its audit. The latest `records` are remembered, by fingerprint and id, some 3 KiB each; the
 * command line remembers 16384. 0 forgets all and compares no more, as at first.
 *
 * Only what passes through this one scratch is compared, in that order: give all of a patient's notes to one scratch.
 * Returns JOINTLEDGER_OK, BAD_ARGUMENT (more than 2^20), BUSY or NO_MEMORY.
 */
JOINTLEDGER_API int jointledger_scratch_remember(jointledger_scratch* scratch, size_t records) JOINTLEDGER_NOEXCEPT;

/* --------------------------------------------------------------------------------------------------- vocabulary --- */

/* Values never change and are never used again; new ones come at the end. */

/** A place on the body. From SPINE on they are groups, used where the note names no joint. */
enum jointledger_region {
  JOINTLEDGER_REGION_TEMPOROMANDIBULAR = 0,
  JOINTLEDGER_REGION_CERVICAL_SPINE = 1,
  JOINTLEDGER_REGION_THORACIC_SPINE = 2,
  JOINTLEDGER_REGION_LUMBAR_SPINE = 3,
  JOINTLEDGER_REGION_PELVIS = 4,
  JOINTLEDGER_REGION_CHEST_WALL = 5,
  JOINTLEDGER_REGION_SHOULDER = 6,
  JOINTLEDGER_REGION_UPPER_ARM = 7,
  JOINTLEDGER_REGION_ELBOW = 8,
  JOINTLEDGER_REGION_FOREARM = 9,
  JOINTLEDGER_REGION_WRIST = 10,
  JOINTLEDGER_REGION_HAND = 11,
  JOINTLEDGER_REGION_HIP = 12,
  JOINTLEDGER_REGION_THIGH = 13,
  JOINTLEDGER_REGION_KNEE = 14,
  JOINTLEDGER_REGION_LOWER_LEG = 15,
  JOINTLEDGER_REGION_ANKLE = 16,
  JOINTLEDGER_REGION_FOOT = 17,
  JOINTLEDGER_REGION_SPINE = 18,
  JOINTLEDGER_REGION_UPPER_EXTREMITY = 19,
  JOINTLEDGER_REGION_LOWER_EXTREMITY = 20,
  JOINTLEDGER_REGION_EXTREMITIES = 21,
  JOINTLEDGER_REGION_WHOLE_BODY = 22
};

/** A part of the exam. UNSPECIFIED is a blanket remark ("left hip: normal"). */
enum jointledger_component {
  JOINTLEDGER_COMPONENT_INSPECTION = 0,
  JOINTLEDGER_COMPONENT_PALPATION = 1,
  JOINTLEDGER_COMPONENT_RANGE_OF_MOTION = 2,
  JOINTLEDGER_COMPONENT_STRENGTH = 3,
  JOINTLEDGER_COMPONENT_STABILITY = 4,
  JOINTLEDGER_COMPONENT_SPECIAL_TEST = 5,
  JOINTLEDGER_COMPONENT_SENSATION = 6,
  JOINTLEDGER_COMPONENT_REFLEXES = 7,
  JOINTLEDGER_COMPONENT_PERFUSION = 8,
  JOINTLEDGER_COMPONENT_GAIT = 9,
  JOINTLEDGER_COMPONENT_UNSPECIFIED = 10
};

/** BOTH stands for a left and a right that are alike. Spine, pelvis, chest wall, jaw and whole body are MIDLINE. */
enum jointledger_side {
  JOINTLEDGER_SIDE_LEFT = 0,
  JOINTLEDGER_SIDE_RIGHT = 1,
  JOINTLEDGER_SIDE_BOTH = 2,
  JOINTLEDGER_SIDE_MIDLINE = 3,
  JOINTLEDGER_SIDE_UNSTATED = 4
};

/** STATED is examined, result not given; NOT_DONE is deferred, refused or impossible. */
enum jointledger_outcome {
  JOINTLEDGER_OUTCOME_NOT_DONE = 0,
  JOINTLEDGER_OUTCOME_STATED = 1,
  JOINTLEDGER_OUTCOME_NORMAL = 2,
  JOINTLEDGER_OUTCOME_ABNORMAL = 3
};

/** A set of motions is an unsigned number with bit `1u << motion` for each. */
enum jointledger_motion {
  JOINTLEDGER_MOTION_FLEXION = 0,
  JOINTLEDGER_MOTION_EXTENSION = 1,
  JOINTLEDGER_MOTION_ABDUCTION = 2,
  JOINTLEDGER_MOTION_ADDUCTION = 3,
  JOINTLEDGER_MOTION_INTERNAL_ROTATION = 4,
  JOINTLEDGER_MOTION_EXTERNAL_ROTATION = 5,
  JOINTLEDGER_MOTION_ROTATION = 6,
  JOINTLEDGER_MOTION_LATERAL_BENDING = 7,
  JOINTLEDGER_MOTION_SUPINATION = 8,
  JOINTLEDGER_MOTION_PRONATION = 9,
  JOINTLEDGER_MOTION_RADIAL_DEVIATION = 10,
  JOINTLEDGER_MOTION_ULNAR_DEVIATION = 11,
  JOINTLEDGER_MOTION_DORSIFLEXION = 12,
  JOINTLEDGER_MOTION_PLANTARFLEXION = 13,
  JOINTLEDGER_MOTION_INVERSION = 14,
  JOINTLEDGER_MOTION_EVERSION = 15,
  JOINTLEDGER_MOTION_OPENING = 16,
  JOINTLEDGER_MOTION_OPPOSITION = 17,
  JOINTLEDGER_MOTION_CIRCUMDUCTION = 18,
  JOINTLEDGER_MOTION_ELEVATION = 19,
  JOINTLEDGER_MOTION_DEPRESSION = 20,
  JOINTLEDGER_MOTION_PROTRUSION = 21,
  JOINTLEDGER_MOTION_LATERAL_EXCURSION = 22,
  JOINTLEDGER_MOTION_PROTRACTION = 23,
  JOINTLEDGER_MOTION_RETRACTION = 24
};

/** How much a gap counts: a REQUIRED one makes the note incomplete, an ADVISED one does not. */
enum jointledger_kind { JOINTLEDGER_KIND_REQUIRED = 0, JOINTLEDGER_KIND_ADVISED = 1 };

/** Why an expectation is not met. */
enum jointledger_reason {
  JOINTLEDGER_REASON_NOT_MENTIONED = 0,
  JOINTLEDGER_REASON_ONE_SIDE_ONLY = 1, /**< nothing on this side, while the other was examined */
  JOINTLEDGER_REASON_MOTIONS_MISSING = 2,
  JOINTLEDGER_REASON_STRUCTURES_MISSING = 3,
  JOINTLEDGER_REASON_NO_RESULT_STATED = 4,
  JOINTLEDGER_REASON_BLANKET_ONLY = 5, /**< only a remark on the limb, the whole body, or "unremarkable" */
  JOINTLEDGER_REASON_DEFERRED_WITHOUT_REASON = 6
};

/** What a note is checked for against itself. */
enum jointledger_check {
  JOINTLEDGER_CHECK_CONTRADICTION = 0,     /**< normal and abnormal for the same thing, without a word of change */
  JOINTLEDGER_CHECK_SIDE_CONFLICT = 1,     /**< the complaint, the exam and the assessment are not of one side */
  JOINTLEDGER_CHECK_IMPLAUSIBLE_VALUE = 2, /**< a motion beyond what the joint can do, or a grade off its scale */
  JOINTLEDGER_CHECK_MISSING_JOINT = 3,     /**< a joint said to be gone or fused, and examined as normal */
  JOINTLEDGER_CHECK_SIDE_SLIP = 4,         /**< the other side named under a heading with a side */
  JOINTLEDGER_CHECK_COPIED_EXAM = 5        /**< the exam repeats an earlier one: see jointledger_scratch_remember() */
};

/**
 * The name of a value as the JSON output writes it: "range_of_motion", "side-conflict". Static; NULL for a value that
 * this library does not know. To list a set, count up from 0 until NULL.
 */
JOINTLEDGER_API const char* jointledger_region_name(int region) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API const char* jointledger_component_name(int component) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API const char* jointledger_side_name(int side) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API const char* jointledger_outcome_name(int outcome) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API const char* jointledger_motion_name(int motion) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API const char* jointledger_kind_name(int kind) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API const char* jointledger_reason_name(int reason) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API const char* jointledger_check_name(int check) JOINTLEDGER_NOEXCEPT;

/* ------------------------------------------------------------------------------------------------------ ledgers --- */

/** Bytes [start, end) of the note's text as it was given: zero-copy evidence. */
typedef struct jointledger_span {
  uint32_t start;
  uint32_t end;
} jointledger_span;

/** What was measured of one motion, in degrees. */
typedef struct jointledger_degrees {
  int32_t motion;   /**< enum jointledger_motion; JOINTLEDGER_NONE where a range names no motion ("0-140") */
  int32_t side;     /**< enum jointledger_side */
  int32_t has_from; /**< 1 where the note gives a range, 0 for a single figure ("flexion 120") */
  int32_t from;     /**< start of the range; 0 where there is none */
  int32_t to;       /**< the figure, or the end of the range */
  int32_t lacking;  /**< 1 where the figure counts down from full motion ("lacks 10 degrees of extension"), else 0 */
  jointledger_span evidence;
} jointledger_degrees;

/** A grade as written: power ("4+/5"), a reflex or a pulse ("2+"). */
typedef struct jointledger_grade {
  const char* value; /**< without its scale: "4+", "5-", "2", "trace" */
  int32_t tenths;    /**< the value times ten, a sign counting 3: "4+" is 43, "5-" is 47 */
  int32_t scale;     /**< the number after the slash; 5 for power, 4 for reflexes and pulses */
  int32_t side;      /**< enum jointledger_side */
  jointledger_span evidence;
} jointledger_grade;

/** One part of the exam that the note documents, for one region and side. */
typedef struct jointledger_entry {
  int32_t region;                   /**< enum jointledger_region */
  int32_t component;                /**< enum jointledger_component */
  int32_t side;                     /**< enum jointledger_side */
  int32_t outcome;                  /**< enum jointledger_outcome */
  uint32_t motions;                 /**< the motions that the note names: bit 1u << motion; of range of motion only */
  float certainty;                  /**< calibrated share of such entries that are right, 0..1 */
  const jointledger_span* evidence; /**< the words that say so: at least one, ascending, not overlapping */
  size_t evidence_count;
  const jointledger_degrees* degrees;
  size_t degrees_count;
  const jointledger_grade* grades;
  size_t grade_count;
  const char* const* structures; /**< ids of structures that the note names ("lateral_malleolus") */
  size_t structure_count;
  const char* const* tests; /**< ids of named tests ("lachman") */
  size_t test_count;
} jointledger_entry;

/** A region and side that the history describes as the current problem. */
typedef struct jointledger_complaint {
  int32_t region; /**< enum jointledger_region */
  int32_t side;   /**< enum jointledger_side */
  int32_t injury; /**< 1 if the history speaks of an injury, fall or accident, else 0 */
  jointledger_span evidence;
} jointledger_complaint;

typedef struct jointledger_ledger {
  const jointledger_entry* entries; /**< at most one for each region, component and side, ordered by those */
  size_t entry_count;
  const jointledger_complaint* complaints; /**< at most one for each region and side, in order of appearance */
  size_t complaint_count;
} jointledger_ledger;

/**
 * Reads a note. `text` is valid UTF-8 without NUL bytes, more than white space, of `size` bytes, at most
 * JOINTLEDGER_LONGEST_NOTE; it is borrowed for the call only. The same text gives the same ledger, whatever the scratch
 * has read before.
 *
 * `*ledger`, and what it points to, holds until the next read with this scratch, or its end. Give NULL to leave out the
 * structures, where only the audit or the JSON is wanted.
 *
 * Returns JOINTLEDGER_OK, BAD_ARGUMENT, BAD_TEXT, TOO_LONG, INTERRUPTED, BUSY or NO_MEMORY. After a failure the scratch
 * holds no ledger.
 */
JOINTLEDGER_API int jointledger_read(jointledger_engine* engine, jointledger_scratch* scratch, const char* text,
                                     size_t size, const jointledger_ledger** ledger) JOINTLEDGER_NOEXCEPT;

/**
 * Reads a note that comes as one line of NDJSON, {"id": ..., "text": ..., ...}, as the command line takes it with
 * --from ndjson. A line break at its end is let pass. The id and the further members travel through to the JSON.
 * Offsets count in the text as the line's JSON string means it; see jointledger_scratch_text().
 *
 * As jointledger_read(); further returns JOINTLEDGER_BAD_RECORD. A record whose text cannot be read is BAD_RECORD, too.
 */
JOINTLEDGER_API int jointledger_read_record(jointledger_engine* engine, jointledger_scratch* scratch, const char* line,
                                            size_t size, const jointledger_ledger** ledger) JOINTLEDGER_NOEXCEPT;

/**
 * The text of the record that was read last, for the offsets of its ledger: `*size` bytes, without a NUL. Holds
 * until the next read. Returns JOINTLEDGER_OK, BAD_ARGUMENT, BUSY, or NOT_READ if the last read was none of a record.
 */
JOINTLEDGER_API int jointledger_scratch_text(jointledger_scratch* scratch, const char** text,
                                             size_t* size) JOINTLEDGER_NOEXCEPT;

/* ------------------------------------------------------------------------------------------------------- audits --- */

/** An expectation of the profile that the note does not meet, for one region and side. */
typedef struct jointledger_gap {
  const char* expectation;   /**< its id in the profile */
  int32_t kind;              /**< enum jointledger_kind */
  int32_t region;            /**< enum jointledger_region */
  int32_t side;              /**< enum jointledger_side; BOTH where left and right lack the same thing */
  int32_t reason;            /**< enum jointledger_reason */
  uint32_t motions;          /**< those that are missing: bit 1u << motion */
  int32_t reserved;          /**< 0 */
  double credit;             /**< share that the note earns all the same, both sides taken together, 0..1 */
  const char* prompt;        /**< a line with blanks that would close the gap; never states a finding */
  const int32_t* components; /**< enum jointledger_component; any one of them would close it */
  size_t component_count;
  const char* const* structures; /**< ids of those that are missing */
  size_t structure_count;
  const jointledger_span* nearest; /**< the words that came nearest, ascending; may be none */
  size_t nearest_count;
} jointledger_gap;

/** An expectation that is met, for one region on all sides asked. */
typedef struct jointledger_credit {
  const char* expectation;
  int32_t region;          /**< enum jointledger_region */
  int32_t side;            /**< enum jointledger_side; the side asked for, UNSTATED where any would do */
  const uint32_t* entries; /**< which meet it: indices into the ledger's entries, ascending */
  size_t entry_count;
} jointledger_credit;

/** Two places of a note that do not hold together, or one and what it is held against. */
typedef struct jointledger_inconsistency {
  int32_t check;                 /**< enum jointledger_check */
  int32_t region;                /**< enum jointledger_region; WHOLE_BODY for a copied exam */
  int32_t side;                  /**< enum jointledger_side */
  int32_t component;             /**< enum jointledger_component, or JOINTLEDGER_NONE */
  const jointledger_span* first; /**< the words, ascending; at least one */
  size_t first_count;
  const jointledger_span* second; /**< the words against them; none where it is a limit or another note */
  size_t second_count;
  const char* message;    /**< asks which holds, in plain words; never states a finding */
  const char* other_note; /**< of a copied exam the id of the earlier note, else NULL */
  double share;           /**< of a copied exam how much of it stands in the earlier one, 0..1; else 0 */
} jointledger_inconsistency;

typedef struct jointledger_audit {
  const char* profile;
  double score;                /**< earned weight over applicable weight, 0..1; 1 where nothing applies */
  uint32_t applicable;         /**< demands made: an expectation for a region each */
  uint32_t met;                /**< of those, how many are met on all sides asked */
  int32_t lacks_required;      /**< 1 if a gap of the required kind is among the gaps, else 0 */
  int32_t reserved;            /**< 0 */
  const jointledger_gap* gaps; /**< required before advised, then heavier first */
  size_t gap_count;
  const jointledger_credit* credits; /**< in the order of the profile */
  size_t credit_count;
  const jointledger_inconsistency* inconsistencies; /**< they leave the score as it is */
  size_t inconsistency_count;
  const uint32_t* doubtful; /**< entries less certain than asked for: indices into the ledger's entries, ascending */
  size_t doubtful_count;
  const char* notice; /**< what an audit does not say; to be shown with it */
} jointledger_audit;

/** Begin with all zero and set `size`. */
typedef struct jointledger_audit_options {
  size_t size;           /**< sizeof(jointledger_audit_options) */
  float least_certainty; /**< 0..1: entries less certain than this earn nothing, and are listed as doubtful */
} jointledger_audit_options;

/**
 * Holds the ledger that the scratch holds against a profile, by its name of `profile_size` bytes. `options` NULL: all
 * defaults. May be called for several profiles, one after another.
 *
 * `*audit`, and what it points to, holds until the next audit or read with this scratch, or its end. Give NULL to leave
 * out the structures.
 *
 * Returns JOINTLEDGER_OK, BAD_ARGUMENT, NO_PROFILE, NOT_READ, INTERRUPTED, BUSY or NO_MEMORY. After a failure the
 * ledger still holds.
 */
JOINTLEDGER_API int jointledger_audit_ledger(jointledger_scratch* scratch, const char* profile, size_t profile_size,
                                             const jointledger_audit_options* options,
                                             const jointledger_audit** audit) JOINTLEDGER_NOEXCEPT;

/* --------------------------------------------------------------------------------------------------------- JSON --- */

/**
 * The ledger, or the last audit, that the scratch holds, as one JSON object: byte for byte the line that the command
 * line writes with --to ndjson, without its line break. `*size` bytes and a NUL. Holds until the next call for JSON or
 * the next read with this scratch.
 *
 * `id` is the note's id in the object, `id_size` bytes of UTF-8 without NUL. NULL: the record's own id; of a note that
 * came as text, "-", as the command line calls what it reads from the standard input.
 *
 * Returns JOINTLEDGER_OK, BAD_ARGUMENT (an empty id, too), BAD_TEXT (of the id), TOO_LONG (of the id), NOT_READ (there
 * is no ledger, or no audit of it), BUSY or NO_MEMORY.
 */
JOINTLEDGER_API int jointledger_ledger_json(jointledger_scratch* scratch, const char* id, size_t id_size,
                                            const char** json, size_t* size) JOINTLEDGER_NOEXCEPT;
JOINTLEDGER_API int jointledger_audit_json(jointledger_scratch* scratch, const char* id, size_t id_size,
                                           const char** json, size_t* size) JOINTLEDGER_NOEXCEPT;

/* ----------------------------------------------------------------------------------------------------- profiles --- */

/** One demand of a profile: what should be documented, and why. */
typedef struct jointledger_expectation {
  const char* id;     /**< unique within its profile; gaps and credits name it */
  int32_t kind;       /**< enum jointledger_kind */
  int32_t reserved;   /**< 0 */
  double weight;      /**< more than 0 */
  const char* asks;   /**< one line: what should be in the note */
  const char* why;    /**< may be empty, as may be the next */
  const char* source; /**< a citation, or "common practice, no source" */
} jointledger_expectation;

typedef struct jointledger_profile {
  const char* name;    /**< for jointledger_audit_ledger() */
  const char* title;   /**< one line for a listing */
  const char* purpose; /**< who should use it for what */
  const char* caution; /**< what it does not say */
  const jointledger_expectation* expectations;
  size_t expectation_count;
} jointledger_profile;

/**
 * All profiles that the engine has in force, sorted by name, with all that they ask for. The listing holds until the
 * next listing with this scratch, or its end, and through any reload. The scratch's ledger and audit stay as they are.
 *
 * Returns JOINTLEDGER_OK, BAD_ARGUMENT or BUSY.
 */
JOINTLEDGER_API int jointledger_profiles(jointledger_engine* engine, jointledger_scratch* scratch,
                                         const jointledger_profile** profiles, size_t* count) JOINTLEDGER_NOEXCEPT;

#ifdef __cplusplus
} /* extern "C" */
#endif

#endif /* JOINTLEDGER_H */
