// When memory runs out, at whatever allocation, a code comes back, nothing leaks, and the scratch works on.
//
// The library takes its memory from the program's operator new, which is replaced here by one that can be told to fail.
#include <gtest/gtest.h>

#include <cstdlib>
#include <new>
#include <string>

#include "handles.h"

namespace {

/// Allocations of this thread that still succeed; negative: all of them.
thread_local long allowed = -1;

void* allocate(std::size_t size) noexcept {
  if (allowed == 0) return nullptr;
  if (allowed > 0) --allowed;
  return std::malloc(size == 0 ? 1 : size);
}

void* allocate_aligned(std::size_t size, std::size_t alignment) noexcept {
  if (allowed == 0) return nullptr;
  if (allowed > 0) --allowed;
  return std::aligned_alloc(alignment, (size + alignment - 1) / alignment * alignment);
}

void* or_throw(void* memory) {
  if (memory == nullptr) throw std::bad_alloc();
  return memory;
}

}  // namespace

void* operator new(std::size_t size) { return or_throw(allocate(size)); }
void* operator new[](std::size_t size) { return or_throw(allocate(size)); }
void* operator new(std::size_t size, const std::nothrow_t&) noexcept { return allocate(size); }
void* operator new[](std::size_t size, const std::nothrow_t&) noexcept { return allocate(size); }
void* operator new(std::size_t size, std::align_val_t alignment) {
  return or_throw(allocate_aligned(size, static_cast<std::size_t>(alignment)));
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete[](void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }
void operator delete[](void* memory, std::size_t) noexcept { std::free(memory); }
void operator delete(void* memory, std::align_val_t) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t, std::align_val_t) noexcept { std::free(memory); }

/// RE2 is written for programs without exceptions: a pattern that it compiles when memory runs out leaks its pieces.
extern "C" const char* __lsan_default_suppressions();  // NOLINT(bugprone-reserved-identifier): the sanitizer's name
extern "C" const char* __lsan_default_suppressions() { return "leak:libre2.so\n"; }

namespace jointledger {
namespace {

/// Runs `call` with one allocation more each time until it succeeds; how often it failed for lack of memory, or -1 if
/// it failed otherwise.
template <class Call>
int failures_until_success(const Call& call, long step = 1) {
  for (int failures = 0;; ++failures) {
    allowed = failures * step;
    const int code = call();
    allowed = -1;
    if (code == JOINTLEDGER_OK) return failures;
    if (code != JOINTLEDGER_NO_MEMORY) {
      ADD_FAILURE() << "after " << failures * step << " allocations: " << jointledger_code_text(code);
      return -1;
    }
  }
}

class Memory : public ::testing::Test {
 protected:
  std::string line_ = testing::lines_of(JOINTLEDGER_FIXTURES "/notes.ndjson").at(26);  // many joints
  testing::Engine engine_ = testing::shipped_engine();
};

TEST_F(Memory, OpeningAndReloading) {
  jointledger_engine* engine = nullptr;
  // Far too many allocations to fail each of them.
  EXPECT_GT(failures_until_success([&] { return jointledger_engine_open(nullptr, &engine, nullptr); }, 997), 10);
  ASSERT_NE(engine, nullptr);
  EXPECT_GT(failures_until_success([&] { return jointledger_engine_reload(engine, nullptr, nullptr); }, 1009), 10);
  jointledger_engine_release(engine);
}

TEST_F(Memory, NewScratches) {
  jointledger_scratch* scratch = nullptr;
  EXPECT_GT(failures_until_success([&] { return jointledger_scratch_new(&scratch); }), 0);
  jointledger_scratch_free(scratch);
}

TEST_F(Memory, EveryAllocationOfReadingAuditingAndWriting) {
  const testing::Scratch good = testing::new_scratch();
  ASSERT_EQ(testing::read_record(engine_, good, line_), JOINTLEDGER_OK);
  ASSERT_EQ(testing::audit(good, "screening"), JOINTLEDGER_OK);
  const std::string expected = testing::audit_line(good);

  const testing::Scratch scratch = testing::new_scratch();
  ASSERT_EQ(jointledger_scratch_remember(scratch.get(), 10), JOINTLEDGER_OK);
  const jointledger_ledger* ledger = nullptr;
  const jointledger_audit* audit = nullptr;
  EXPECT_GT(failures_until_success([&] { return testing::read_record(engine_, scratch, line_, &ledger); }), 10);
  EXPECT_GT(failures_until_success([&] { return testing::audit(scratch, "screening", &audit); }), 10);
  EXPECT_GT(failures_until_success([&] { return jointledger_audit_json(scratch.get(), nullptr, 0, nullptr, nullptr); }),
            0);
  ASSERT_NE(ledger, nullptr);
  ASSERT_NE(audit, nullptr);
  EXPECT_EQ(testing::audit_line(scratch), expected);
}

TEST_F(Memory, AFailedReadLeavesNoLedger) {
  const testing::Scratch scratch = testing::new_scratch();
  ASSERT_EQ(testing::read_record(engine_, scratch, line_), JOINTLEDGER_OK);
  allowed = 3;
  const int code = testing::read_record(engine_, scratch, line_);
  allowed = -1;
  EXPECT_EQ(code, JOINTLEDGER_NO_MEMORY);
  EXPECT_EQ(testing::message(scratch), "not enough memory");
  EXPECT_EQ(testing::audit(scratch, "screening"), JOINTLEDGER_NOT_READ);
}

TEST_F(Memory, AWarmScratchHardlyAllocatesForTheStructures) {
  const testing::Scratch scratch = testing::new_scratch();
  const auto allocations = [&](const jointledger_ledger** ledger) {
    constexpr long kMany = 1'000'000;
    allowed = kMany;
    const int code = testing::read_record(engine_, scratch, line_, ledger);
    const long used = kMany - allowed;
    allowed = -1;
    EXPECT_EQ(code, JOINTLEDGER_OK);
    return used;
  };
  const jointledger_ledger* ledger = nullptr;
  for (int i = 0; i < 3; ++i) allocations(&ledger);
  EXPECT_LE(allocations(&ledger), allocations(nullptr) + 4);
}

}  // namespace
}  // namespace jointledger
