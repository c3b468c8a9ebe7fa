// Long calls end when asked to, and one scratch is never used twice at once.
#include <gtest/gtest.h>

#include <atomic>
#include <csignal>
#include <stdexcept>
#include <string>
#include <thread>

#include "handles.h"

namespace jointledger {
namespace {

const std::string kNote = "EXAM: Left knee: no swelling.";

/// So many sentences that a reading is under way when it is asked to stop.
std::string long_note() {
  std::string note = "EXAM:\n";
  for (int i = 0; i < 1000; ++i) note += "Left knee: no swelling, full motion. Same on the right. ";
  return note;
}

class Interrupt : public ::testing::Test {
 protected:
  testing::Engine engine_ = testing::shipped_engine();
  testing::Scratch scratch_ = testing::new_scratch();
};

TEST_F(Interrupt, ARequestHoldsUntilItIsTakenBack) {
  ASSERT_EQ(testing::read(engine_, scratch_, kNote), JOINTLEDGER_OK);
  jointledger_scratch_interrupt(scratch_.get());
  EXPECT_EQ(testing::audit(scratch_, "complaint"), JOINTLEDGER_INTERRUPTED);
  for (int i = 0; i < 2; ++i) EXPECT_EQ(testing::read(engine_, scratch_, kNote), JOINTLEDGER_INTERRUPTED);
  EXPECT_EQ(testing::message(scratch_), "interrupted");
  EXPECT_EQ(testing::ledger_line(scratch_), "");
  jointledger_scratch_resume(scratch_.get());
  EXPECT_EQ(testing::read(engine_, scratch_, kNote), JOINTLEDGER_OK);
}

TEST_F(Interrupt, AnotherThreadEndsALongCall) {
  struct Meeting {
    std::atomic<bool> reading = false;
    std::atomic<bool> asked = false;
  } meeting;
  ASSERT_EQ(jointledger_scratch_watch(
                scratch_.get(),
                [](void* context) {
                  auto& m = *static_cast<Meeting*>(context);
                  m.reading = true;
                  while (!m.asked) std::this_thread::yield();
                  return 0;
                },
                &meeting),
            JOINTLEDGER_OK);
  std::thread other([&] {
    while (!meeting.reading) std::this_thread::yield();
    jointledger_scratch_interrupt(scratch_.get());
    meeting.asked = true;
  });
  EXPECT_EQ(testing::read(engine_, scratch_, long_note()), JOINTLEDGER_INTERRUPTED);
  other.join();
}

std::atomic<jointledger_scratch*> interrupted_by_signal = nullptr;

TEST_F(Interrupt, ASignalHandlerEndsALongCall) {
  const std::string note = long_note();
  interrupted_by_signal = scratch_.get();
  int asked = 0;
  ASSERT_NE(std::signal(SIGUSR1, [](int) { jointledger_scratch_interrupt(interrupted_by_signal); }), SIG_ERR);
  ASSERT_EQ(jointledger_scratch_watch(
                scratch_.get(),
                [](void* count) {
                  if (++*static_cast<int*>(count) == 100) std::raise(SIGUSR1);
                  return 0;
                },
                &asked),
            JOINTLEDGER_OK);
  EXPECT_EQ(testing::read(engine_, scratch_, note), JOINTLEDGER_INTERRUPTED);
  std::signal(SIGUSR1, SIG_DFL);
}

TEST_F(Interrupt, AWatcherThatSaysStopEndsTheCallAndOnlyThat) {
  int left = 50;
  ASSERT_EQ(jointledger_scratch_watch(
                scratch_.get(), [](void* count) { return --*static_cast<int*>(count) == 0 ? 1 : 0; }, &left),
            JOINTLEDGER_OK);
  EXPECT_EQ(testing::read(engine_, scratch_, long_note()), JOINTLEDGER_INTERRUPTED);
  EXPECT_EQ(left, 0);  // not asked again after it had said so
  EXPECT_EQ(testing::read(engine_, scratch_, kNote), JOINTLEDGER_OK);
  EXPECT_LT(left, 0);
  ASSERT_EQ(jointledger_scratch_watch(scratch_.get(), nullptr, nullptr), JOINTLEDGER_OK);
  const int asked = left;
  EXPECT_EQ(testing::read(engine_, scratch_, kNote), JOINTLEDGER_OK);
  EXPECT_EQ(left, asked);
}

TEST_F(Interrupt, AWatcherThatThrowsIsAnErrorNotACrash) {
  ASSERT_EQ(jointledger_scratch_watch(
                scratch_.get(), [](void*) -> int { throw std::runtime_error("thrown by a C++ program"); }, nullptr),
            JOINTLEDGER_OK);
  EXPECT_EQ(testing::read(engine_, scratch_, kNote), JOINTLEDGER_INTERNAL);
  EXPECT_EQ(testing::audit(scratch_, "complaint"), JOINTLEDGER_NOT_READ);
}

TEST_F(Interrupt, AScratchInUseIsRefused) {
  struct Seen {
    const testing::Engine& engine;
    const testing::Scratch& scratch;
    int read = -1;
    int json = -1;
  } seen{engine_, scratch_};
  ASSERT_EQ(jointledger_scratch_watch(
                scratch_.get(),
                [](void* context) {
                  auto& s = *static_cast<Seen*>(context);
                  s.read = testing::read(s.engine, s.scratch, kNote);
                  s.json = jointledger_ledger_json(s.scratch.get(), nullptr, 0, nullptr, nullptr);
                  return 0;
                },
                &seen),
            JOINTLEDGER_OK);
  EXPECT_EQ(testing::read(engine_, scratch_, kNote), JOINTLEDGER_OK);
  EXPECT_EQ(seen.read, JOINTLEDGER_BUSY);
  EXPECT_EQ(seen.json, JOINTLEDGER_BUSY);
}

TEST_F(Interrupt, AnyThreadMayGoOnWithAScratchAndFreeIt) {
  ASSERT_EQ(testing::read(engine_, scratch_, kNote), JOINTLEDGER_OK);
  const std::string here = testing::ledger_line(scratch_);
  std::string there;
  std::thread([&] {
    testing::read(engine_, scratch_, kNote);
    there = testing::ledger_line(scratch_);
    scratch_.reset();
  }).join();
  EXPECT_EQ(there, here);
}

}  // namespace
}  // namespace jointledger
