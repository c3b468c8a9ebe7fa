// The assembly line: order, limits, ends.
#include "batch/ordered.h"

#include <gtest/gtest.h>

#include <atomic>
#include <random>
#include <stdexcept>
#include <vector>

namespace jointledger {
namespace {

struct Job {
  int number = 0;
  int result = 0;
};

constexpr auto kLight = [](const Job&) { return std::size_t{1}; };
constexpr auto kIdle = [] { return true; };

/// Fills `count` jobs, numbered from 0.
auto numbers(int count, int& next) {
  return [&next, count](Job& job) {
    job = {next, 0};
    return next++ < count;
  };
}

class Threads : public ::testing::TestWithParam<std::size_t> {};

TEST_P(Threads, JobsComeOutInTheirOrder) {
  OrderedLine<Job> line({.threads = GetParam(), .jobs = 7, .weight = 1000});
  int next = 0;
  std::vector<int> taken;
  std::vector<int> expected;
  for (int i = 0; i < 3000; ++i) expected.push_back(i * i);
  line.run(
      numbers(3000, next), kLight,
      [](Job& job, std::size_t) {
        // Unequal, so that later ones are ready before earlier ones.
        std::minstd_rand random(static_cast<unsigned>(job.number));
        for (auto turns = random() % 3000; turns > 0; --turns) random();
        job.result = job.number * job.number;
      },
      [&](Job& job) {
        taken.push_back(job.result);
        return true;
      },
      kIdle);
  EXPECT_EQ(taken, expected);
}

INSTANTIATE_TEST_SUITE_P(OfAnyNumber, Threads, ::testing::Values(1, 2, 3, 16));

TEST(OrderedLines, KeepNoMoreThanTheirRingUnderWay) {
  OrderedLine<Job> line({.threads = 2, .jobs = 5, .weight = 1000});
  std::atomic<int> under_way = 0;
  int most = 0;
  int next = 0;
  line.run(
      [&](Job& job) {
        job = {next, 0};
        const bool more = next++ < 500;
        if (more) ++under_way;
        return more;
      },
      kLight, [](Job&, std::size_t) {},
      [&](Job&) {
        most = std::max(most, under_way.load());
        --under_way;
        return true;
      },
      kIdle);
  EXPECT_LE(most, 5);
}

TEST(OrderedLines, HeavyJobsWaitForEachOther) {
  OrderedLine<Job> line({.threads = 4, .jobs = 100, .weight = 10});
  std::atomic<int> under_way = 0;
  int most = 0;
  int next = 0;
  line.run(
      [&](Job& job) {
        job = {next, 0};
        const bool more = next++ < 200;
        if (more) ++under_way;
        return more;
      },
      [](const Job&) { return std::size_t{11}; }, [](Job&, std::size_t) {},
      [&](Job&) {
        most = std::max(most, under_way.load());
        --under_way;
        return true;
      },
      kIdle);
  EXPECT_EQ(most, 1);
}

TEST(OrderedLines, StopWhenTheTakerHasEnough) {
  OrderedLine<Job> line({.threads = 2, .jobs = 4, .weight = 1000});
  int next = 0;
  int taken = 0;
  line.run(
      numbers(1'000'000, next), kLight, [](Job&, std::size_t) {}, [&](Job&) { return ++taken < 10; }, kIdle);
  EXPECT_EQ(taken, 10);
  EXPECT_LE(next, 10 + 4 + 1);
}

TEST(OrderedLines, StopWhenThereIsNoPointInWaiting) {
  OrderedLine<Job> line({.threads = 1, .jobs = 4, .weight = 1000});
  std::atomic<bool> told = false;
  int taken = 0;
  line.run(
      [&](Job& job) {
        job = {};
        // No more input until the taker was idle.
        while (!told) std::this_thread::yield();
        return true;
      },
      kLight, [](Job&, std::size_t) {},
      [&](Job&) {
        ++taken;
        return true;
      },
      [&] {
        told = true;
        return false;
      });
  EXPECT_EQ(taken, 0);
}

TEST(OrderedLines, AreIdleBeforeTheyWaitForInput) {
  OrderedLine<Job> line({.threads = 2, .jobs = 4, .weight = 1000});
  std::atomic<int> answered = 0;
  int taken = 0;
  int next = 0;
  line.run(
      [&](Job& job) {
        // A person who asks the next question when the last one is answered: it would hang if the taker were not idle.
        while (answered < next) std::this_thread::yield();
        job = {next, 0};
        return next++ < 50;
      },
      kLight, [](Job&, std::size_t) {},
      [&](Job&) {
        ++taken;
        return true;
      },
      [&] {
        answered = taken;
        return true;
      });
  EXPECT_EQ(taken, 50);
}

TEST(OrderedLines, OfNothingEnd) {
  OrderedLine<Job> line({.threads = 3, .jobs = 4, .weight = 1});
  int next = 0;
  bool taken = false;
  line.run(
      numbers(0, next), kLight, [](Job&, std::size_t) {}, [&](Job&) { return taken = true; }, kIdle);
  EXPECT_FALSE(taken);
}

TEST(OrderedLines, PassOnWhatIsThrown) {
  const auto thrown_by = [](int stage) {
    OrderedLine<Job> line({.threads = 2, .jobs = 4, .weight = 1000});
    int next = 0;
    const auto at = [&](int here, int number) {
      if (here == stage && number == 20) throw std::runtime_error("stage");
    };
    line.run(
        [&](Job& job) {
          at(0, next);
          job = {next, 0};
          return next++ < 1000;
        },
        kLight, [&](Job& job, std::size_t) { at(1, job.number); },
        [&](Job& job) {
          at(2, job.number);
          return true;
        },
        kIdle);
  };
  EXPECT_NO_THROW(thrown_by(-1));
  for (int stage = 0; stage < 3; ++stage) EXPECT_THROW(thrown_by(stage), std::runtime_error) << stage;
}

}  // namespace
}  // namespace jointledger
