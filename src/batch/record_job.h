// One record on its way through a batch, and what comes of it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "audit/audit.h"
#include "batch/passed_over.h"
#include "batch/repeats.h"
#include "intake/decoder.h"
#include "intake/format.h"
#include "intake/intake_options.h"
#include "intake/record.h"
#include "ledger/ledger.h"
#include "lexicon/lexicon.h"
#include "reading/reader.h"
#include "report/report.h"
#include "report/tally.h"

namespace jointledger {

/// What is done with every note of a batch. Borrowed and immutable while the batch runs.
struct BatchWork {
  const Lexicon& lexicon;
  const Format& from;
  const IntakeOptions& intake;
  const ReportFormat& to;
  ReportRun report;              ///< without a profile, notes are read only
  float least_certainty = 0.0F;  ///< as for audit()
};

/// A note that was read.
struct Answer {
  Ledger ledger;
  Audit audit;            ///< empty where there is no profile
  std::size_t start = 0;  ///< of the formatted note in RecordJob::out
  std::size_t end = 0;
  // What the finder of copied exams asks for; empty where nobody looks for them.
  std::string id;
  std::string author;
  std::string patient;
  ExamPrint print;
};

/// Reused from record to record, so that it stops allocating. The first part is set by whoever cuts the input into
/// records, the second by work_on().
struct RecordJob {
  Record record;
  std::optional<RecordFault> fault;       ///< set where there is no record: passed over, or an input not to be opened
  std::optional<PassedOver> passed_over;  ///< where its bytes are then, if they can be had
  std::uint64_t number = 0;               ///< counts the records of the batch from 0
  std::uint32_t input_sum = 0;            ///< checksum of the batch's records up to and including this one
  bool again = false;                     ///< was answered by the run that this one goes on with: only to be remembered
  bool strange = false;                   ///< no record: the input is not the one of the run that this one goes on with

  std::uint64_t taken_in = 0;  ///< notes and faults that the decoder gave
  std::vector<std::variant<Answer, RecordFault>> outcomes;
  std::string out;    ///< the notes, formatted
  ReportTally tally;  ///< of the notes

  std::unique_ptr<Decoder> decoder;  // notes point into it, so it is the job's, not the thread's; null before the first
};

/// Reads, audits and formats the notes of a record. Thread-safe for different jobs and scratches; what it makes depends
/// on the record only.
void work_on(RecordJob& job, const BatchWork& work, ReadingScratch& scratch);

/// Formats the notes of a record once more, after something was added to their audits.
void format_again(RecordJob& job, const BatchWork& work);

/// Gives back the memory of a job that is done with, if its record was larger than most.
void let_go(RecordJob& job);

}  // namespace jointledger
