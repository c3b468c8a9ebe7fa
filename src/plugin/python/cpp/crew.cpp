#include "crew.h"

#include <nanobind/nanobind.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <list>
#include <thread>

namespace jointledger::python {
namespace {

constexpr std::chrono::milliseconds kTick{100};

/// What the threads of one call share.
struct Shift {
  std::atomic<std::size_t> next = 0;
  std::atomic<bool> stopped = false;
  std::mutex mutex;
  std::condition_variable one_left;
  std::size_t at_work = 0;
  std::exception_ptr failure;
};

bool signal_raised() {
  const nanobind::gil_scoped_acquire locked;
  return PyErr_CheckSignals() != 0;
}

}  // namespace

void run_crew(Engine& engine, std::size_t jobs, std::size_t threads,
              const std::function<void(std::size_t, jointledger_scratch*)>& work) {
  Shift shift;
  std::list<Borrowed> scratches;
  const std::size_t hands = std::min(std::max<std::size_t>(threads, 1), jobs);
  for (std::size_t n = 0; n < hands; ++n) scratches.emplace_back(engine);

  const auto toil = [&](jointledger_scratch* scratch) noexcept {
    try {
      while (!shift.stopped) {
        const std::size_t job = shift.next++;
        if (job >= jobs) break;
        work(job, scratch);
      }
    } catch (...) {
      const std::lock_guard lock(shift.mutex);
      if (!shift.failure) shift.failure = std::current_exception();
      shift.stopped = true;
    }
    const std::lock_guard lock(shift.mutex);
    --shift.at_work;
    shift.one_left.notify_one();
  };
  const auto stop = [&] {
    shift.stopped = true;
    for (const Borrowed& scratch : scratches) jointledger_scratch_interrupt(scratch.get());
  };

  bool interrupted = false;
  {
    const nanobind::gil_scoped_release unlocked;
    std::vector<std::jthread> crew;  // joined where it ends
    crew.reserve(hands);
    try {
      for (const Borrowed& scratch : scratches) {
        {
          const std::lock_guard lock(shift.mutex);
          ++shift.at_work;
        }
        crew.emplace_back(toil, scratch.get());
      }
    } catch (...) {  // no more threads to be had
      stop();
      throw;
    }
    std::unique_lock lock(shift.mutex);
    while (!shift.one_left.wait_for(lock, kTick, [&] { return shift.at_work == 0; })) {
      lock.unlock();
      if (!interrupted && signal_raised()) {
        interrupted = true;
        stop();
      }
      lock.lock();
    }
  }
  if (interrupted) throw nanobind::python_error();
  if (shift.failure) std::rethrow_exception(shift.failure);
}

}  // namespace jointledger::python
