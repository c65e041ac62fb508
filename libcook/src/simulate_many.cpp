#include "cook/simulate_many.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>

#include "cook/errors.hpp"
#include "engine/pack_run.hpp"

namespace cook {

namespace {

/// Whether a plan can share a pack: what it needs beside the equations of a line, packs do not have.
bool packs(const Plan &plan, const Options &options) {
  return options.grid == GridKind::slab &&
         std::none_of(plan.stages.begin(), plan.stages.end(),
                      [](const Stage &s) { return s.surroundings.pit_air.has_value(); });
}

/// Indices of the plans that go together, and how many have been taken.
struct Group {
  std::vector<std::size_t> members;
  std::atomic<std::size_t> taken{0};

  [[nodiscard]] std::optional<std::size_t> next() {
    const std::size_t at = taken++;
    return at < members.size() ? std::optional(members[at]) : std::nullopt;
  }
};

class Batch {
public:
  Batch(std::span<const Plan> plans, const Options &options, const Deliver &deliver, Delivery delivery)
      : plans_(plans), options_(options), deliver_(deliver), delivery_(delivery) {
    options_.interrupted = [this] { return stopped_.load(std::memory_order_relaxed); };
    for (std::size_t i = 0; i < plans.size(); ++i) {
      const Plan &plan = plans[i];
      Group &group = !packs(plan, options)                         ? alone_
                     : plan.meat.shape.kind == ShapeKind::cylinder ? cylinders_
                                                                   : slabs_;
      group.members.push_back(i);
    }
  }

  void run(std::size_t threads, const std::function<bool()> &interrupted) {
    stopped_ = interrupted && interrupted();
    threads = std::min(threads, std::max<std::size_t>(plans_.size(), 1));
    working_ = threads;
    Crew crew(*this);
    for (std::size_t i = 0; i < threads; ++i) {
      crew.workers.emplace_back([this, threads] {
        work(threads);
        const std::lock_guard lock(mutex_);
        --working_;
        idle_.notify_all();
      });
    }
    std::unique_lock lock(mutex_);
    while (working_ > 0) {
      constexpr std::chrono::milliseconds look{20};
      idle_.wait_for(lock, look, [this] { return working_ == 0; });
      if (interrupted && !stopped_) {
        lock.unlock();
        stopped_ = interrupted();
        lock.lock();
      }
    }
  }

private:
  /// The threads. However run() ends, they have ended before: what keeps them from it is stopped.
  struct Crew {
    explicit Crew(Batch &of) : batch(of) {}
    Crew(const Crew &) = delete;
    Crew &operator=(const Crew &) = delete;
    ~Crew() {
      if (std::uncaught_exceptions() > 0) {
        batch.stopped_ = true;
      }
      for (std::thread &worker : workers) {
        worker.join();
      }
    }
    Batch &batch;
    std::vector<std::thread> workers;
  };

  void work(std::size_t threads) {
    for (Group *group : {&slabs_, &cylinders_}) {
      run_packs(*group, threads);
    }
    run_alone(alone_);
  }

  /// The next plan of a group. Once all is stopped there is none, and those that are left are given back.
  std::optional<std::size_t> next(Group &group) {
    std::optional<std::size_t> i = group.next();
    if (stopped_) {
      for (; i; i = group.next()) {
        give(*i, {nullptr, not_begun_});
      }
    }
    return i;
  }

  void run_packs(Group &group, std::size_t threads) {
    // However few they are, although a pack's step costs that of about three cooks alone: what comes out must
    // not depend on how a batch was cut.
    const std::size_t share = (group.members.size() + threads - 1) / threads;
    engine::PackQueue queue;
    queue.next = [this, &group] { return next(group); };
    queue.plan = [this](std::size_t i) -> const Plan & { return plans_[i]; };
    queue.done = [this](std::size_t i, std::shared_ptr<const Outcome> outcome, std::exception_ptr failure) {
      give(i, {std::move(outcome), std::move(failure)});
    };
    engine::PackRun(options_, std::move(queue)).run(share);
  }

  void run_alone(Group &group) {
    while (const std::optional<std::size_t> i = next(group)) {
      Result result;
      try {
        result.outcome = simulate(plans_[*i], options_);
      } catch (...) {
        result.failure = std::current_exception();
      }
      give(*i, std::move(result));
    }
  }

  void give(std::size_t index, Result result) {
    std::unique_lock lock(delivering_, std::defer_lock);
    if (delivery_ == Delivery::one_by_one) {
      lock.lock();
    }
    deliver_(index, std::move(result));
  }

  std::span<const Plan> plans_;
  Options options_;
  const Deliver &deliver_;
  Delivery delivery_;
  Group slabs_, cylinders_, alone_;
  std::atomic<bool> stopped_{false};
  std::exception_ptr not_begun_ =
      std::make_exception_ptr(Interrupted("stopped on request before it began", std::make_shared<Outcome>()));
  std::mutex delivering_, mutex_;
  std::condition_variable idle_;
  std::size_t working_ = 0;
};

} // namespace

void simulate_many(std::span<const Plan> plans, const Options &options, int threads, const Deliver &deliver,
                   Delivery delivery) {
  options.validate();
  check::within("threads", threads, 0, 1024, "", "0 takes one for each processor");
  const std::size_t wanted =
      threads > 0 ? static_cast<std::size_t>(threads) : std::max(1U, std::thread::hardware_concurrency());
  Batch(plans, options, deliver, delivery).run(wanted, options.interrupted);
}

std::vector<Result> simulate_many(std::span<const Plan> plans, const Options &options, int threads) {
  std::vector<Result> results(plans.size());
  simulate_many(plans, options, threads,
                [&results](std::size_t i, Result result) { results[i] = std::move(result); });
  return results;
}

} // namespace cook
