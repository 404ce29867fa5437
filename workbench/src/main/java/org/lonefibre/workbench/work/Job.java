package org.lonefibre.workbench.work;

import java.time.Instant;
import java.util.Date;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;
import org.lonefibre.workbench.declaration.Analyst;

/** Long work that can be watched and cancelled. Thread rule: safe. */
public final class Job implements Analyst.Watch {

  /**
   * How far it is.
   *
   * @param state {@code running}, {@code done}, {@code cancelled} or {@code failed}
   */
  public record Progress(
      String id,
      String state,
      String step,
      int done,
      int of,
      @Nullable String study,
      @Nullable String error) {}

  private final ReentrantLock lock = new ReentrantLock();
  private final Condition changed = lock.newCondition();
  private volatile boolean cancelled;
  private Progress progress;
  private long changes;

  Job(String id) {
    progress = new Progress(id, "running", "beginning", 0, 1, null, null);
  }

  @Override
  public void step(String name, int done, int of) {
    set(new Progress(progress().id(), "running", name, done, of, null, null));
  }

  @Override
  public boolean isCancelled() {
    return cancelled;
  }

  void cancel() {
    cancelled = true;
  }

  void end(String state, @Nullable String study, @Nullable String error) {
    Progress now = progress();
    set(new Progress(now.id(), state, now.step(), now.done(), now.of(), study, error));
  }

  private void set(Progress next) {
    lock.lock();
    try {
      if (progress.state().equals("running")) {
        progress = next;
        changes++;
        changed.signalAll();
      }
    } finally {
      lock.unlock();
    }
  }

  /** How far it is now. */
  public Progress progress() {
    lock.lock();
    try {
      return progress;
    } finally {
      lock.unlock();
    }
  }

  /** The progress once it has changed so often, or soon. */
  Progress await(long since) throws InterruptedException {
    lock.lock();
    try {
      if (changes <= since && progress.state().equals("running")) {
        changed.awaitUntil(Date.from(Instant.now().plusSeconds(1)));
      }
      return progress;
    } finally {
      lock.unlock();
    }
  }

  long changes() {
    lock.lock();
    try {
      return changes;
    } finally {
      lock.unlock();
    }
  }
}
