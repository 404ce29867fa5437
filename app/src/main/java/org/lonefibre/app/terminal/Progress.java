package org.lonefibre.app.terminal;

import me.tongfei.progressbar.ConsoleProgressBarConsumer;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;
import org.jspecify.annotations.Nullable;

/**
 * A bar on standard error while work goes on, where standard error is a terminal; nothing
 * elsewhere. The launcher knows whether it is one and says so with {@code
 * -Dlonefibre.terminal=true}.
 *
 * <p>Thread rule: safe; several threads may report steps.
 */
public final class Progress implements AutoCloseable {

  private static final int WIDTH = 79;
  private static final int UPDATE_MS = 200;

  private final @Nullable ProgressBar bar;

  private Progress(@Nullable ProgressBar bar) {
    this.bar = bar;
  }

  /** Begins work of a number of steps. */
  public static Progress begin(String task, long steps) {
    if (!Boolean.getBoolean("lonefibre.terminal") || steps < 2) {
      return new Progress(null);
    }
    return new Progress(
        new ProgressBarBuilder()
            .setTaskName(task)
            .setInitialMax(steps)
            .setStyle(ProgressBarStyle.ASCII)
            .setUpdateIntervalMillis(UPDATE_MS)
            .setConsumer(new ConsoleProgressBarConsumer(System.err, WIDTH))
            .clearDisplayOnFinish()
            .build());
  }

  /** One step is done. */
  public void step() {
    if (bar != null) {
      bar.step();
    }
  }

  @Override
  public void close() {
    if (bar != null) {
      bar.close();
    }
  }
}
