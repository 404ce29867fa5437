package org.lonefibre.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.chain.ChainResult;
import org.lonefibre.analysis.chain.ChainStep;
import org.lonefibre.analysis.chain.KeptChain;
import org.lonefibre.analysis.conditioning.ConditioningRecord;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Criterion;
import org.lonefibre.analysis.study.EndPlateJitter;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.ProgressFact;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.analysis.study.SettingsStamp;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.StudyAlternative;
import org.lonefibre.analysis.study.StudyProgress;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Verdict;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** Invented examinations: nobody was examined, no laboratory exists. */
public final class ExaminationSample {

  /** Text that would do harm if a document took it for markup. */
  public static final String HOSTILE = "<script>alert('x')</script>\"&</style>]]>\u0007\u202Egnp";

  private static final LimitsUsed LIMITS =
      new LimitsUsed(
          "invented-2026, invented set for the demonstration",
          "mean",
          36.0,
          43.0,
          "more than 10 % of signals",
          "invented for this sample, no source",
          "invented");

  private ExaminationSample() {}

  /** Twenty sites, voluntary, with all that a report can meet. */
  public static Examination voluntary() {
    return examination(
        new Subject("DEMO-0042", 47.0),
        new Visit("2026-03-14", "Invented Laboratory", 34.2, "none in the last 24 hours", null),
        List.of(voluntaryStudy()),
        List.of(
            new Refusal(
                "site-21.edf",
                "byte 236, number of records",
                "expected a whole number, found \"twelve\"; export the recording again")));
  }

  /** Ten sites, stimulated, nothing declared. */
  public static Examination stimulated() {
    return examination(
        new Subject(null, null), Visit.UNDECLARED, List.of(stimulatedStudy()), List.of());
  }

  /** One site that gave nothing. */
  public static Examination nothingMeasured() {
    Finding none =
        Finding.exclusion(
            FindingCode.NO_DISCHARGES,
            "No potential stands out of the noise of 4.1 uV in 60.0 s.",
            Evidence.NONE);
    RecordingResult recording =
        new RecordingResult(
            "quiet.edf",
            hash(7),
            "EDF",
            "site 1",
            0,
            60,
            "needle",
            50000,
            60,
            4.1,
            null,
            List.of(none),
            List.of(),
            null);
    return examination(
        new Subject("K-17", 31.0),
        Visit.UNDECLARED,
        List.of(
            new Study(
                "extensor digitorum",
                Side.LEFT,
                Activation.VOLUNTARY,
                "concentric-standard",
                List.of(recording),
                summary(List.of(), 0, null))),
        List.of());
  }

  /** No study at all: every file was refused. */
  public static Examination refusedOnly() {
    return examination(
        new Subject("K-18", null),
        Visit.UNDECLARED,
        List.of(),
        List.of(
            new Refusal(
                "a.edf", "byte 0", "expected an EDF header, found a web page; export again"),
            new Refusal("b.txt", "line 12", "expected a number, found \"n/a\"; remove the line")));
  }

  /** Every text that comes from a file or a person is hostile. */
  public static Examination hostile() {
    Examination sample = voluntary();
    Study study = sample.studies().get(0);
    List<RecordingResult> recordings = new ArrayList<>();
    for (RecordingResult r : study.recordings().subList(0, 3)) {
      recordings.add(
          new RecordingResult(
              HOSTILE,
              r.sha256(),
              "EDF",
              HOSTILE,
              0,
              20,
              "=cmd|' /C calc'!A0",
              50000,
              20,
              r.noiseUv(),
              r.conditioning(),
              List.of(Finding.caution(FindingCode.TEXT_ENCODING, HOSTILE, Evidence.NONE)),
              r.motorUnits(),
              null));
    }
    return examination(
        new Subject(HOSTILE, 50.0),
        new Visit(HOSTILE, HOSTILE, null, HOSTILE, HOSTILE),
        List.of(
            new Study(
                HOSTILE, Side.LEFT, Activation.VOLUNTARY, HOSTILE, recordings, study.summary())),
        List.of(new Refusal(HOSTILE, HOSTILE, HOSTILE)));
  }

  private static Examination examination(
      Subject subject, Visit visit, List<Study> studies, List<Refusal> refused) {
    return new Examination(
        Examination.SCHEMA,
        new Producer("Lonefibre", "0.1.0"),
        "2026-03-14T10:22:31Z",
        new SettingsStamp(
            "1",
            hash(99),
            List.of(
                new SettingsStamp.Entry("conditioning.highPassHz", "1000", "rules.csv (V)"),
                new SettingsStamp.Entry("jitter.fewDifferences", "50", "rules.csv (V)"),
                new SettingsStamp.Entry("jitter.leastDifferences", "20", "engineering choice"))),
        subject,
        visit,
        studies,
        refused,
        studies.isEmpty() ? null : chain());
  }

  private static KeptChain chain() {
    return new KeptChain(
        KeptChain.SCHEMA,
        "2026-03-01",
        "chain.edf",
        "EMG",
        new ChainResult(
            50_000,
            50_002.5,
            250,
            250,
            482.0,
            2,
            null,
            0,
            1180.0,
            0.00175,
            4.2e-5,
            0.83,
            0.74,
            0.94,
            28.4,
            28.5,
            List.of(
                new ChainStep(
                    ChainStep.Kind.CLOCK_OFF,
                    "The rate is +50 ppm off the declared one by the player's clock."))));
  }

  private static Study voluntaryStudy() {
    double[] jitters = {
      24, 31, 28, 19, 35, 27, 44, 22, 30, 26, 33, 29, 61, 25, 2.6, 38, 27, 23, 34, 21
    };
    List<RecordingResult> recordings = new ArrayList<>();
    for (int i = 0; i < jitters.length; i++) {
      double interval = 420 + 137 * ((i * 7) % 13);
      InventedSignal signal =
          new InventedSignal(100 + i, 96, interval, jitters[i], i == 12 ? 0.09 : 0);
      recordings.add(
          switch (i) {
            case 5, 11 -> composite(i, signal, interval);
            case 8 -> site(i, signal.inTwoClusters(70), interval, PairStatus.MEASURED, clusters());
            case 14 -> site(i, signal, interval, PairStatus.EXCLUDED, lowJitter());
            case 17 ->
                site(
                    i,
                    new InventedSignal(7, 24, interval, 40, 0.45),
                    interval,
                    PairStatus.UNMEASURABLE,
                    tooFew());
            case 18 -> threePotentials(i, signal, interval);
            default -> site(i, signal, interval, PairStatus.MEASURED, List.of());
          });
    }
    return new Study(
        "extensor digitorum",
        Side.RIGHT,
        Activation.VOLUNTARY,
        "concentric-standard",
        recordings,
        summary(recordings, 2, LIMITS));
  }

  private static RecordingResult site(
      int index,
      InventedSignal signal,
      double interval,
      PairStatus status,
      List<Finding> findings) {
    PairResult pair = signal.pair("u1:p1-p2", "p1", "p2", status, findings);
    return recording(
        index,
        List.of(
            unit(
                signal,
                420 + 13 * index,
                260 + 9 * index,
                List.of(
                    InventedSignal.potential(
                        "p1", 0, 420 + 13 * index, Grade.SINGLE_FIBRE, List.of()),
                    InventedSignal.potential(
                        "p2", interval / 1000, 260 + 9 * index, Grade.SINGLE_FIBRE, List.of())),
                List.of(pair),
                List.of())));
  }

  private static RecordingResult composite(int index, InventedSignal signal, double interval) {
    Finding composite =
        Finding.exclusion(
            FindingCode.COMPOSITE,
            "Its shape varies by 31.2 uV where noise explains 9.0 uV: two fibres or more.",
            Evidence.of(new Evidence.Quantity("shape deviation", 31.2, "uV")));
    Finding rise =
        Finding.caution(FindingCode.RISE_TIME, "Rise time 360 us is over 300 us.", Evidence.NONE);
    PairResult pair = signal.pair("u1:p1-p2", "p1", "p2", PairStatus.EXCLUDED, List.of(composite));
    return recording(
        index,
        List.of(
            unit(
                signal,
                520,
                310,
                List.of(
                    InventedSignal.potential("p1", 0, 520, Grade.SINGLE_FIBRE, List.of()),
                    InventedSignal.potential(
                        "p2", interval / 1000, 310, Grade.COMPOSITE, List.of(composite, rise))),
                List.of(pair),
                List.of())));
  }

  private static RecordingResult threePotentials(
      int index, InventedSignal signal, double interval) {
    InventedSignal other = new InventedSignal(77, 96, interval + 900, 30, 0);
    Finding shared =
        Finding.note(
            FindingCode.SHARED_TRIGGER,
            "Two pairs share the trigger p1 and are not independent.",
            Evidence.NONE);
    return recording(
        index,
        List.of(
            unit(
                signal,
                480,
                300,
                List.of(
                    InventedSignal.potential("p1", 0, 480, Grade.SINGLE_FIBRE, List.of()),
                    InventedSignal.potential("p2", interval / 1000, 300, Grade.DOUBTFUL, List.of()),
                    InventedSignal.potential(
                        "p3", interval / 1000 + 0.9, 210, Grade.SINGLE_FIBRE, List.of())),
                List.of(
                    signal.pair("u1:p1-p2", "p1", "p2", PairStatus.MEASURED, List.of(shared)),
                    other.pair("u1:p1-p3", "p1", "p3", PairStatus.MEASURED, List.of(shared))),
                List.of(
                    new EndPlateJitter("p1", 14.2, 10.1, 19.8),
                    new EndPlateJitter("p2", 29.9, 24.0, 36.2),
                    new EndPlateJitter("p3", null, null, null)))));
  }

  private static MotorUnitResult unit(
      InventedSignal signal,
      double triggerUv,
      double pairedUv,
      List<PotentialResult> potentials,
      List<PairResult> pairs,
      List<EndPlateJitter> jitters) {
    return new MotorUnitResult(
        "u1",
        pairs.get(0).sweeps(),
        11.8,
        85.0,
        List.of(),
        potentials,
        pairs,
        jitters,
        signal.drawing(triggerUv, pairedUv));
  }

  private static RecordingResult recording(int index, List<MotorUnitResult> units) {
    return new RecordingResult(
        String.format(Locale.ROOT, "site-%02d.edf", index + 1),
        hash(index),
        "EDF+C",
        "site " + (index + 1),
        0,
        20,
        "needle",
        50000,
        20,
        8.6 + 0.1 * index,
        conditioning(),
        index == 3
            ? List.of(
                Finding.note(
                    FindingCode.FILTERED_TWICE,
                    "The file says it was filtered before: HP:500Hz LP:10kHz.",
                    Evidence.NONE))
            : List.of(),
        units,
        null);
  }

  private static ConditioningRecord conditioning() {
    return new ConditioningRecord(1000, 10000.0, 2, "zero", "causal", null, "HP:500Hz LP:10kHz");
  }

  private static Study stimulatedStudy() {
    List<RecordingResult> recordings = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      double latency = 3100 + 90 * i;
      InventedSignal signal =
          new InventedSignal(500 + i, 100, latency, 16 + 3 * i, i == 7 ? 0.2 : 0);
      List<EndPlateResult> plates = new ArrayList<>();
      plates.add(signal.endPlate("e1", "p1", PairStatus.MEASURED, List.of()));
      List<PotentialResult> potentials = new ArrayList<>();
      potentials.add(
          InventedSignal.potential("p1", latency / 1000, 300, Grade.SINGLE_FIBRE, List.of()));
      if (i == 2) {
        InventedSignal second = new InventedSignal(600, 100, latency + 800, 3.1, 0);
        plates.add(second.endPlate("e2", "p2", PairStatus.EXCLUDED, lowJitter()));
        potentials.add(
            InventedSignal.potential(
                "p2", latency / 1000 + 0.8, 250, Grade.SINGLE_FIBRE, List.of()));
      }
      recordings.add(
          new RecordingResult(
              "stim.bdf",
              hash(55),
              "BDF+C",
              "site " + (i + 1),
              i * 20.0,
              i * 20 + 20.0,
              "needle",
              48828.125,
              20,
              5.5,
              conditioning(),
              List.of(),
              null,
              new StimulationResult(
                  100, 10.0, i == 2 ? 4.4 : null, potentials, plates, signal.drawing(0, 300))));
    }
    return new Study(
        null, null, Activation.STIMULATED, null, recordings, summary(recordings, 0, null));
  }

  private static StudySummary summary(
      List<RecordingResult> recordings, int rejected, @Nullable LimitsUsed limits) {
    List<SignalMeasures> all = new ArrayList<>();
    recordings.forEach(r -> all.addAll(r.signals()));
    List<SignalMeasures> measured =
        all.stream().filter(s -> s.status() == PairStatus.MEASURED).toList();
    double[] jitters =
        measured.stream().mapToDouble(ExaminationSample::jitterUs).sorted().toArray();
    double sum = 0;
    for (double jitter : jitters) {
      sum += jitter;
    }
    int above = (int) measured.stream().filter(s -> jitterUs(s) > 43.0).count();
    int blocking = (int) measured.stream().filter(s -> s.blockedSweeps() > 0).count();
    double mean = jitters.length == 0 ? 0 : sum / jitters.length;
    Finding missing =
        Finding.caution(
            FindingCode.MISSING_DECLARATION,
            "Muscle, age and needle were not given: everything was measured, nothing compared.",
            Evidence.NONE);
    Finding trade =
        Finding.caution(
            FindingCode.CLOSE_CALL, "1 value lies within 2 us of the limit 43 us.", Evidence.NONE);
    return new StudySummary(
        measured.size(),
        (int)
            recordings.stream()
                .filter(r -> r.signals().stream().anyMatch(s -> s.status() == PairStatus.MEASURED))
                .count(),
        jitters.length == 0 ? null : Double.valueOf(mean),
        jitters.length == 0 ? null : Double.valueOf(jitters[jitters.length / 2]),
        jitters.length == 0 ? null : Double.valueOf(1204.0),
        11.8,
        limits == null ? null : Integer.valueOf(above),
        blocking,
        limits == null ? null : Integer.valueOf(above + blocking),
        (int) all.stream().filter(s -> s.status() == PairStatus.EXCLUDED).count() - rejected,
        (int) all.stream().filter(s -> s.status() == PairStatus.EXCLUDED).count(),
        (int) all.stream().filter(s -> s.status() == PairStatus.UNMEASURABLE).count(),
        0,
        rejected,
        limits == null ? Verdict.NOT_COMPARED : Verdict.NO_LIMIT_EXCEEDED,
        limits == null ? Verdict.NOT_COMPARED : Verdict.LIMIT_EXCEEDED,
        limits,
        limits == null
            ? List.of()
            : List.of(
                new Criterion(
                    "centre-above-limit",
                    false,
                    false,
                    String.format(
                        Locale.ROOT,
                        "mean jitter %.1f us is not above the limit 36 us (extensor digitorum,"
                            + " voluntary, concentric needle, set invented-2026).",
                        mean)),
                new Criterion(
                    "outliers",
                    true,
                    false,
                    above
                        + " of "
                        + measured.size()
                        + " signals above the limit 43 us or blocking; the set allows 10 %.")),
        limits == null ? null : progress(measured.size()),
        limits == null ? List.of() : List.of(alternative(measured.size(), mean)),
        limits == null ? List.of(missing) : List.of(trade));
  }

  private static StudyProgress progress(int signals) {
    return new StudyProgress(
        20,
        signals,
        List.of(
            new ProgressFact(
                "outliers",
                ProgressFact.Certain.OPEN,
                ProgressFact.Sequential.OPEN,
                null,
                "1 of " + signals + " signals above the limit or blocking: of 20, 2 more.")));
  }

  private static StudyAlternative alternative(int signals, double mean) {
    return new StudyAlternative(
        "msd-for-all",
        "mean sorted difference for all",
        signals,
        mean,
        mean,
        1,
        Verdict.NO_LIMIT_EXCEEDED);
  }

  private static double jitterUs(SignalMeasures signal) {
    Double jitter = signal.jitterUs();
    return jitter == null ? 0 : jitter;
  }

  private static List<Finding> clusters() {
    return List.of(
        Finding.caution(
            FindingCode.TWO_CLUSTERS,
            "Intervals fall into two clusters 70 us apart: no single number describes this pair.",
            Evidence.ofSweeps(List.of(8, 15))));
  }

  private static List<Finding> lowJitter() {
    return List.of(
        Finding.exclusion(
            FindingCode.LOW_JITTER,
            "MCD 2.6 us is below 5 us: a split fibre or direct stimulation.",
            Evidence.of(new Evidence.Quantity("MCD", 2.6, "us"))));
  }

  private static List<Finding> tooFew() {
    return List.of(
        Finding.exclusion(
            FindingCode.TOO_FEW_DIFFERENCES,
            "9 consecutive differences, 20 are needed.",
            Evidence.NONE));
  }

  private static String hash(int seed) {
    StringBuilder hash = new StringBuilder();
    for (int i = 0; i < 8; i++) {
      hash.append(String.format(Locale.ROOT, "%08x", 0x9e3779b9 * (seed * 8 + i + 1)));
    }
    return hash.toString();
  }
}
