package org.lonefibre.report.figure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.report.document.Rounded;
import org.lonefibre.report.document.SignalEntry;
import org.lonefibre.report.document.SignalEntry.Standing;
import org.lonefibre.report.document.StudyDocument;
import org.lonefibre.report.document.Words;
import org.lonefibre.report.figure.Svg.Anchor;
import org.lonefibre.report.figure.Svg.Dash;
import org.lonefibre.report.figure.Svg.Weight;

/**
 * All signals of a study, one row and one mark each, with the 95 % interval of the corrected
 * jitter, against the individual and the centre limit. Signals of the statistics stand in order of
 * jitter, what was left out below them. The shape of the mark tells how a signal stands, and a word
 * beside it says the same.
 */
public final class StripPlot {

  private static final int WIDTH = 680;
  private static final int LEFT = 150;
  private static final int RIGHT = 470;
  private static final int REFERENCE_ROW = 13;
  private static final int ROW = 13;
  private static final int ROWS_A_FIGURE = 56;

  private record Reference(double valueUs, String name, Dash dash) {}

  private final StudyDocument study;
  private final List<SignalEntry> rows;
  private final Scale scale;
  private final List<Reference> references;
  private final int top;

  private StripPlot(StudyDocument study, List<SignalEntry> rows, Scale scale) {
    this.study = study;
    this.rows = rows;
    this.scale = scale;
    this.references = references();
    this.top = 8 + REFERENCE_ROW * references.size();
  }

  /** The figures: one, or several on one scale if there are many signals; none without signals. */
  public static List<Figure> draw(StudyDocument study) {
    List<SignalEntry> ordered =
        study.signals().stream()
            .sorted(
                Comparator.comparing((SignalEntry s) -> s.inStatistics() ? 0 : 1)
                    .thenComparing(StripPlot::orderUs)
                    .thenComparing(SignalEntry::number))
            .toList();
    Scale scale = scale(study, ordered);
    List<Figure> figures = new ArrayList<>();
    for (int from = 0; from < ordered.size(); from += ROWS_A_FIGURE) {
      int to = Math.min(ordered.size(), from + ROWS_A_FIGURE);
      figures.add(new StripPlot(study, ordered.subList(from, to), scale).figure());
    }
    return figures;
  }

  private static double orderUs(SignalEntry signal) {
    return Objects.requireNonNullElse(signal.measures().jitterUs(), Double.MAX_VALUE);
  }

  /** Long enough for the limits and most signals; what lies beyond is drawn at the edge. */
  private static Scale scale(StudyDocument study, List<SignalEntry> signals) {
    double[] values =
        signals.stream().mapToDouble(StripPlot::highestUs).filter(v -> v > 0).sorted().toArray();
    double most = values.length == 0 ? 50 : values[values.length - 1];
    double usual = values.length == 0 ? 50 : values[(int) Math.floor(0.8 * (values.length - 1))];
    LimitsUsed limits = study.limits();
    double limit = limits == null ? 0 : Objects.requireNonNullElse(limits.individualUs(), 0.0);
    double centre = limits == null ? 0 : Objects.requireNonNullElse(limits.centreUs(), 0.0);
    double end = Math.max(Math.min(most, 2 * usual), 1.3 * Math.max(limit, centre));
    double step = Scale.step(end / 8);
    return new Scale(0, Math.ceil(end * 1.02 / step) * step, LEFT, RIGHT);
  }

  private static double highestUs(SignalEntry signal) {
    Double high = signal.measures().correctedJitterHighUs();
    Double jitter = signal.measures().jitterUs();
    return high != null ? high : jitter != null ? jitter : 0;
  }

  private Figure figure() {
    boolean divided = firstLeftOut() > 0;
    int bottom = top + rows.size() * ROW + (divided ? ROW + 6 : 0) + 4;
    String summary = summary();
    Svg svg = new Svg(WIDTH, bottom + 46, summary);
    for (double tick : scale.ticks(8)) {
      double x = scale.at(tick);
      svg.line(x, top, x, bottom, Ink.GUIDE);
      svg.quiet(x, bottom + 12, Anchor.MIDDLE, Scale.label(tick));
    }
    svg.line(LEFT, bottom, RIGHT, bottom, Ink.TEXT);
    svg.text(RIGHT + 12, bottom + 12, Anchor.START, study.words().say("plot.jitter"));
    reference(svg, bottom);
    double y = top + ROW - 4;
    for (int i = 0; i < rows.size(); i++) {
      if (divided && i == firstLeftOut()) {
        svg.line(0, y - 6, WIDTH, y - 6, Ink.RULE, 0.6, Dash.SOLID);
        svg.text(
            0,
            y + 8,
            Anchor.START,
            Ink.TEXT,
            9,
            Weight.BOLD,
            study.words().say("plot.not-in-statistics"));
        y += ROW + 6;
      }
      row(svg, rows.get(i), y);
      y += ROW;
    }
    legend(svg, bottom + 38);
    return new Figure(svg.close(), summary);
  }

  private int firstLeftOut() {
    for (int i = 0; i < rows.size(); i++) {
      if (!rows.get(i).inStatistics()) {
        return i;
      }
    }
    return -1;
  }

  private List<Reference> references() {
    LimitsUsed limits = study.limits();
    List<Reference> references = new ArrayList<>();
    if (limits != null) {
      add(references, limits.individualUs(), study.words().say("plot.single-limit"), Dash.SOLID);
      add(
          references,
          limits.centreUs(),
          study.words().say("plot.centre-limit", study.words().statistic(limits.centreStatistic())),
          Dash.LONG);
    }
    add(references, study.meanJitterUs(), study.words().say("plot.study-mean"), Dash.DOTTED);
    references.sort(Comparator.comparingDouble(Reference::valueUs));
    return references;
  }

  /** Lines of reference; their names stand to the right of them, so that no line crosses one. */
  private void reference(Svg svg, int bottom) {
    for (int i = 0; i < references.size(); i++) {
      Reference reference = references.get(i);
      double x = scale.at(reference.valueUs());
      int y = 10 + REFERENCE_ROW * i;
      svg.line(x, y - 8, x, bottom, Ink.TEXT, 1.4, reference.dash());
      String name = reference.name() + " " + Rounded.shortest(reference.valueUs(), 1) + " µs";
      svg.text(x + 4, y, Anchor.START, name);
    }
  }

  private void add(List<Reference> references, @Nullable Double valueUs, String name, Dash dash) {
    if (valueUs != null && scale.holds(valueUs)) {
      references.add(new Reference(valueUs, name, dash));
    }
  }

  private void row(Svg svg, SignalEntry signal, double y) {
    double middle = y - 3;
    svg.text(16, y, Anchor.END, Integer.toString(signal.number()));
    svg.text(24, y, Anchor.START, Svg.fitted(signal.label(), LEFT - 34, 10));
    Double jitter = signal.measures().jitterUs();
    Double low = signal.measures().correctedJitterLowUs();
    Double high = signal.measures().correctedJitterHighUs();
    if (low != null && high != null) {
      svg.line(scale.clamped(low), middle, scale.clamped(high), middle, Ink.MARK, 1.2, Dash.SOLID);
      if (high > scale.high()) {
        beyond(svg, middle);
      }
    }
    Double corrected = signal.measures().correctedJitterUs();
    if (corrected != null && scale.holds(corrected)) {
      double x = scale.at(corrected);
      svg.line(x, middle - 5, x, middle + 5, Ink.MARK);
    }
    if (jitter != null) {
      mark(svg, signal.standing(), scale.clamped(jitter), middle);
    }
    svg.text(
        RIGHT + 46,
        y,
        Anchor.END,
        Ink.TEXT,
        10,
        jitter == null ? Weight.PLAIN : Weight.BOLD,
        signal.jitter());
    svg.text(RIGHT + 54, y, Anchor.START, Svg.fitted(note(signal), WIDTH - RIGHT - 54, 10));
  }

  private String note(SignalEntry signal) {
    if (signal.standing() == Standing.MEASURED || signal.standing() == Standing.BLOCKING) {
      String text = signal.standingText();
      return text.equals(study.words().status(signal.measures().status())) ? "" : abbreviated(text);
    }
    return signal.findings().stream()
        .filter(f -> f.severity() == org.lonefibre.signal.recording.Severity.EXCLUSION)
        .map(f -> f.title())
        .findFirst()
        .orElse(signal.standingText());
  }

  /** Without the number of the limit, which is drawn. */
  private String abbreviated(String text) {
    LimitsUsed limits = study.limits();
    Double limit = limits == null ? null : limits.individualUs();
    return limit == null
        ? text
        : text.replace(
            study.words().say("above-limit", Rounded.shortest(limit, 1)),
            study.words().say("plot.above-limit"));
  }

  private static void beyond(Svg svg, double y) {
    svg.line(RIGHT - 5, y - 4, RIGHT, y, Ink.MARK, 1.2, Dash.SOLID);
    svg.line(RIGHT - 5, y + 4, RIGHT, y, Ink.MARK, 1.2, Dash.SOLID);
  }

  private static void mark(Svg svg, Standing standing, double x, double y) {
    switch (standing) {
      case MEASURED -> svg.disc(x, y, 3.6, Ink.MARK);
      case BLOCKING -> {
        svg.box(x - 4, y - 4, 8, 8, Ink.MARK);
        svg.box(x - 0.8, y - 4, 1.6, 8, "#ffffff");
      }
      case EXCLUDED, UNMEASURABLE -> svg.cross(x, y, 3.6, Ink.TEXT);
    }
  }

  private void legend(Svg svg, double y) {
    double middle = y - 3;
    mark(svg, Standing.MEASURED, 4, middle);
    svg.quiet(12, y, Anchor.START, study.words().say("plot.in-statistics"));
    mark(svg, Standing.BLOCKING, 104, middle);
    svg.quiet(112, y, Anchor.START, study.words().say("plot.blocking"));
    mark(svg, Standing.EXCLUDED, 190, middle);
    svg.quiet(198, y, Anchor.START, study.words().say("plot.left-out"));
    svg.line(252, middle, 282, middle, Ink.MARK, 1.2, Dash.SOLID);
    svg.line(267, middle - 5, 267, middle + 5, Ink.MARK);
    svg.quiet(288, y, Anchor.START, study.words().say("plot.legend"));
  }

  private String summary() {
    long inStatistics = rows.stream().filter(SignalEntry::inStatistics).count();
    LimitsUsed limits = study.limits();
    Double individual = limits == null ? null : limits.individualUs();
    Words words = study.words();
    return words.say(
        "plot.summary",
        words.count((int) inStatistics, "signal"),
        rows.size() - inStatistics,
        individual == null
            ? words.say("plot.no-limit")
            : words.say("plot.limit-is", Rounded.shortest(individual, 1)));
  }
}
