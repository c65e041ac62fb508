#include "cook/engine/simulate_many.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>

#include "cook/errors.hpp"
#include "engine/packs/pack_run.hpp"

namespace cook {

namespace {

/// Whether a cooker's air has a balance in some stage, which costs a pack one more solve in each step.
bool has_balance(const Plan &plan) {
  return std::any_of(plan.stages.begin(), plan.stages.end(),
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
      group_of(plans[i]).members.push_back(i);
    }
    for (auto &on_lines : packed_) {
      for (Group &group : on_lines) { // like beside like
        std::stable_partition(group.members.begin(), group.members.end(),
                              [&plans](std::size_t i) { return !has_balance(plans[i]); });
      }
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

  /// Cooks of one pack have as many nodes: one kind of shape, on as many lines.
  Group &group_of(const Plan &plan) {
    if (options_.grid == GridKind::cross_section) {
      return alone_;
    }
    const std::size_t lines = engine::lines_of(plan.meat, options_);
    return packed_[lines - 1][static_cast<std::size_t>(plan.meat.shape.kind)];
  }

  void work(std::size_t threads) {
    for (Group &group : packed_[0]) {
      run_packs<1>(group, threads);
    }
    for (Group &group : packed_[1]) {
      run_packs<2>(group, threads);
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

  template <std::size_t Lines> void run_packs(Group &group, std::size_t threads) {
    if (group.members.empty()) {
      return;
    }
    // However few they are, although a pack's step costs that of about three cooks alone: what comes out must
    // not depend on how a batch was cut.
    const std::size_t share = (group.members.size() + threads - 1) / threads;
    engine::PackQueue queue;
    queue.next = [this, &group] { return next(group); };
    queue.plan = [this](std::size_t i) -> const Plan & { return plans_[i]; };
    queue.done = [this](std::size_t i, std::shared_ptr<const Outcome> outcome, std::exception_ptr failure) {
      give(i, {std::move(outcome), std::move(failure)});
    };
    engine::PackRun<Lines>(options_, std::move(queue)).run(share);
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
  std::array<std::array<Group, 2>, 2> packed_; ///< by lines and kind of shape
  Group alone_;
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
