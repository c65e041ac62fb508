#include "calls/ending.hpp"

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>

namespace cook::python {

namespace {

struct ProcessEnd {
  std::atomic<bool> begun{false};
  std::thread::id by;
  std::mutex mutex; // of what follows
  std::condition_variable changed;
  int busy = 0; ///< threads that are to be waited for, once for each thing they are in
};

/// NOTE: never destroyed: threads that are held are there until the process is gone.
ProcessEnd &the_end() {
  static auto *one = new ProcessEnd;
  return *one;
}

/// Of `busy`, what this thread is in: all that is left of it after a fork, or when this thread ends the
/// interpreter.
thread_local int own_busy = 0;
/// A thread of C++'s own, which is awaited, and so must come back.
thread_local bool worker = false;

void count(int change) {
  ProcessEnd &end = the_end();
  const std::lock_guard lock(end.mutex);
  end.busy += change;
  own_busy += change;
  end.changed.notify_all();
}

/// Without the lock: this thread does nothing any more.
[[noreturn]] void hold() {
  count(-own_busy);
  for (;;) {
    std::this_thread::sleep_for(std::chrono::hours(1));
  }
}

/// With the lock, before something is begun. What is under way already may begin more.
void hold_at_the_end() {
  if (own_busy == 0 && ending()) {
    PyEval_SaveThread();
    hold();
  }
}

/// On the thread that ends the interpreter, with its lock.
void end_what_is_under_way() {
  // What a user's callback does cannot be stopped: after this long it is left to itself.
  constexpr std::chrono::seconds patience{10};
  constexpr std::chrono::milliseconds look{5};
  ProcessEnd &end = the_end();
  end.by = std::this_thread::get_id();
  end.begun = true;
  const auto give_up = std::chrono::steady_clock::now() + patience;
  for (;;) {
    // Asked with the interpreter's lock: a thread that has just come back to Python holds it, and may call
    // C++ again, where it is held before it is counted.
    {
      const std::lock_guard lock(end.mutex);
      if (end.busy == own_busy || std::chrono::steady_clock::now() > give_up) {
        return;
      }
    }
    const py::gil_scoped_release released;
    std::unique_lock lock(end.mutex);
    end.changed.wait_for(lock, look, [&end] { return end.busy == own_busy; });
  }
}

/// In the child of a fork there is only this thread.
/// NOTE: another thread of the parent may have held the mutex, so a new one takes its place.
void forget_other_threads() {
  ProcessEnd &end = the_end();
  new (&end.mutex) std::mutex;
  new (&end.changed) std::condition_variable;
  end.busy = own_busy;
  end.begun = false;
}

} // namespace

bool ending() {
  const ProcessEnd &end = the_end();
  return end.begun && end.by != std::this_thread::get_id();
}

Released::Released() {
  hold_at_the_end();
  count(1);
  state_ = PyEval_SaveThread();
}

Released::~Released() {
  if (ending() && !worker) {
    hold();
  }
  // Still counted: the end, should it come now, waits until this thread has the lock.
  PyEval_RestoreThread(state_);
  count(-1);
}

CallingPython::CallingPython() {
  hold_at_the_end();
  count(1);
}

CallingPython::~CallingPython() { count(-1); }

CallingFromWorker::CallingFromWorker() {
  worker = true;
  count(1);
}

CallingFromWorker::~CallingFromWorker() {
  count(-1);
  worker = false;
}

void watch_for_the_end() {
  py::module_::import("atexit").attr("register")(py::cpp_function(&end_what_is_under_way));
  const py::module_ os = py::module_::import("os");
  if (py::hasattr(os, "register_at_fork")) {
    os.attr("register_at_fork")(py::arg("after_in_child") = py::cpp_function(&forget_other_threads));
  }
}

} // namespace cook::python
