// An assembly line: one thread fills jobs, many work on them, and they come out in the order in which they went in.
//
// Memory is bounded: a fixed ring of jobs, used again and again, and a limit on what they weigh together. Whoever is
// slow holds up those before it, so a slow reader of the output slows the reading of the input.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstddef>
#include <cstdint>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace jointledger {

struct OrderedLimits {
  std::size_t threads = 1;  ///< that work, at least 1; filling and taking are cheap and not counted
  std::size_t jobs = 16;    ///< in the ring, at least 1
  std::size_t weight = 0;   ///< filling waits while the jobs under way weigh more than this together
};

/// Job is default-constructible, and is reused: fill() must set all of it. Not thread-safe: one run() at a time.
template <class Job>
class OrderedLine {
 public:
  /// The longest wait between two calls of idle().
  static constexpr std::chrono::milliseconds kTick{200};

  explicit OrderedLine(const OrderedLimits& limits)
      : limits_(limits), jobs_(limits.jobs), weights_(limits.jobs), done_(limits.jobs) {}

  /// Runs until fill() has no more, or take() or idle() wants no more, and everything has stopped.
  ///
  ///   bool fill(Job&)                    on a thread of its own; false if there is nothing more (the job is dropped)
  ///   std::size_t weigh(const Job&)      on the same thread, right after
  ///   void work(Job&, std::size_t n)     on thread n of `threads`, many jobs at a time
  ///   bool take(Job&)                    on the calling thread, in order; false to stop early
  ///   bool idle()                        on the calling thread, before it waits for a job that is not ready, and every
  ///                                      kTick while it does; false to stop early
  ///
  /// What any of them throws ends the line and is thrown here. Stopping early waits for a fill() that has begun.
  template <class Fill, class Weigh, class Work, class Take, class Idle>
  void run(Fill fill, Weigh weigh, Work work, Take take, Idle idle) {
    std::vector<std::jthread> threads;  // joined where it ends, so after the stopper has told them, thrown or not
    {
      const Stopper stopper{*this};
      threads.reserve(limits_.threads + 1);
      threads.emplace_back([&] { guarded([&] { fill_all(fill, weigh); }); });
      for (std::size_t n = 0; n < limits_.threads; ++n) {
        threads.emplace_back([&, n] { guarded([&] { work_all(work, n); }); });
      }
      take_all(take, idle);
    }
    threads.clear();
    if (failure_) std::rethrow_exception(failure_);
  }

 private:
  struct Stopper {
    OrderedLine& line;
    ~Stopper() { line.stop(); }
  };

  void stop() {
    const std::lock_guard lock(mutex_);
    stopped_ = true;
    wake_all();
  }

  void wake_all() {
    room_.notify_all();
    to_work_.notify_all();
    to_take_.notify_all();
  }

  template <class Body>
  void guarded(Body body) noexcept {
    try {
      body();
    } catch (...) {
      const std::lock_guard lock(mutex_);
      if (!failure_) failure_ = std::current_exception();
      stopped_ = true;
      wake_all();
    }
  }

  template <class Fill, class Weigh>
  void fill_all(Fill& fill, Weigh& weigh) {
    std::unique_lock lock(mutex_);
    while (true) {
      room_.wait(lock, [&] {
        return stopped_ || filled_ == taken_ || (filled_ - taken_ < jobs_.size() && under_way_ <= limits_.weight);
      });
      if (stopped_) return;
      const std::size_t at = filled_ % jobs_.size();
      lock.unlock();
      const bool more = fill(jobs_[at]);
      const std::size_t weight = more ? weigh(jobs_[at]) : 0;
      lock.lock();
      if (!more) {
        ended_ = true;
        wake_all();
        return;
      }
      weights_[at] = weight;
      under_way_ += weight;
      done_[at] = 0;
      ++filled_;
      to_work_.notify_one();
    }
  }

  template <class Work>
  void work_all(Work& work, std::size_t n) {
    std::unique_lock lock(mutex_);
    while (true) {
      to_work_.wait(lock, [&] { return stopped_ || begun_ < filled_ || ended_; });
      if (stopped_ || begun_ == filled_) return;
      const std::uint64_t number = begun_++;
      const std::size_t at = number % jobs_.size();
      lock.unlock();
      work(jobs_[at], n);
      lock.lock();
      done_[at] = 1;
      if (number == taken_) to_take_.notify_one();
    }
  }

  template <class Take, class Idle>
  void take_all(Take& take, Idle& idle) {
    std::unique_lock lock(mutex_);
    const auto ready = [&] { return taken_ < filled_ && done_[taken_ % jobs_.size()] != 0; };
    const auto ended = [&] { return stopped_ || (ended_ && taken_ == filled_); };
    while (true) {
      while (!ready() && !ended()) {
        lock.unlock();
        const bool on = idle();
        lock.lock();
        if (!on) return;
        to_take_.wait_for(lock, kTick, [&] { return ready() || ended(); });
      }
      if (stopped_ || !ready()) return;
      const std::size_t at = taken_ % jobs_.size();
      lock.unlock();
      const bool more = take(jobs_[at]);
      lock.lock();
      under_way_ -= weights_[at];
      ++taken_;
      room_.notify_one();
      if (!more) return;
    }
  }

  OrderedLimits limits_;
  std::vector<Job> jobs_;             // job n is at n % size; each belongs to the stage that it is in
  std::mutex mutex_;                  // guards all below
  std::vector<std::size_t> weights_;  // as jobs_
  std::vector<char> done_;            // as jobs_
  std::condition_variable room_;
  std::condition_variable to_work_;
  std::condition_variable to_take_;
  std::uint64_t filled_ = 0;
  std::uint64_t begun_ = 0;
  std::uint64_t taken_ = 0;
  std::size_t under_way_ = 0;
  bool ended_ = false;
  bool stopped_ = false;
  std::exception_ptr failure_;
};

}  // namespace jointledger
