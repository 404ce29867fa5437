package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.Progress;
import org.lonefibre.model.fibre.Cable;
import org.lonefibre.model.fibre.Contribution;
import org.lonefibre.model.fibre.ContributionSolver;
import org.lonefibre.model.fibre.FallOff;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.IntracellularPotential;
import org.lonefibre.model.fibre.NeedlePotentialSolver;
import org.lonefibre.model.fibre.NeedleResponse;
import org.lonefibre.model.fibre.Pickup;
import org.lonefibre.model.fibre.PotentialSpectrum;
import org.lonefibre.model.fibre.ShoulderMap;
import org.lonefibre.model.leadfield.Contact;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.leadfield.MeshReport;
import org.lonefibre.model.leadfield.SolvedNeedle;
import org.lonefibre.model.motorunit.SampleMuscle;
import org.lonefibre.model.motorunit.SpikeCount;
import org.lonefibre.signal.random.RandomStream;

/** What the model says to a question, with what figures need beyond the document. */
final class NeedleAnswer {

  /** Frequencies at which a capacitive contact is solved; 1 kHz is one of them. */
  private static final double[] FREQUENCIES_HZ = {60, 160, 400, 1000, 2500, 6500, 16_000};

  private static final int AT_1_KHZ = 3;
  private static final double NOISE_TO_HZ = 10_000;
  private static final double STEP_US = 1;
  private static final double COARSE_US = 3;
  private static final List<Double> REACH_UM = List.of(35.0, 55.0, 75.0);

  private final NeedleQuestion question;
  private final SolvedNeedle needle;
  private final NeedlePotentialSolver potentials;
  private final FallOff fallOff;
  private final ContributionSolver parts;
  private final Map<Double, Contribution> contributions = new HashMap<>();
  private final Map<Double, PotentialSpectrum> spectra = new HashMap<>();
  private final ShoulderMap shoulders;
  private final NeedleDocument document;

  private NeedleAnswer(NeedleQuestion question, LeadFieldSolver solver) {
    long start = System.nanoTime();
    this.question = question;
    List<SolvedNeedle> solved = solved(question, solver);
    boolean flat = question.contactFPerM2() == null;
    needle = solved.get(flat ? 0 : AT_1_KHZ);
    NeedleResponse response =
        flat ? NeedleResponse.flat(needle) : NeedleResponse.over(FREQUENCIES_HZ, solved);
    IntracellularPotential wave = IntracellularPotential.defaults();
    potentials = new NeedlePotentialSolver(question.settings().tissue(), response, wave, 0);
    Pickup pickup = new Pickup(Cable.defaults(), question.highPassHz());
    fallOff = new FallOff(potentials, question.fibre(), COARSE_US, pickup);
    parts =
        new ContributionSolver(
            question.needle(),
            question.ideal(),
            response,
            wave,
            question.fibre(),
            pickup,
            COARSE_US,
            solver);
    shoulders =
        new ShoulderMap(
            potentials,
            question.fibre().withDistanceMm(Shouldering.DISTANCE_MM),
            fallOff,
            pickup,
            Shouldering.JITTER_US,
            Shouldering.SIZES,
            Shouldering.DELAYS_US,
            RandomStream.of(1));
    document = document(response, start);
  }

  /**
   * Solves a question.
   *
   * @param solver where lead fields come from
   */
  static NeedleAnswer to(NeedleQuestion question, LeadFieldSolver solver) {
    return new NeedleAnswer(question, solver);
  }

  /** One solution, or one for each frequency. */
  private static List<SolvedNeedle> solved(NeedleQuestion question, LeadFieldSolver solver) {
    Double capacitance = question.contactFPerM2();
    if (capacitance == null) {
      Contact contact = Contact.resistive(question.contactOhmM2());
      return List.of(
          solver.solve(question.needle(), question.settings().withContacts(contact, contact)));
    }
    List<SolvedNeedle> solved = new ArrayList<>();
    try (Progress progress = Progress.begin("solving", FREQUENCIES_HZ.length)) {
      for (double frequencyHz : FREQUENCIES_HZ) {
        Contact contact = Contact.capacitive(capacitance, frequencyHz);
        solved.add(
            solver.solve(question.needle(), question.settings().withContacts(contact, contact)));
        progress.step();
      }
    }
    return solved;
  }

  private NeedleDocument document(NeedleResponse response, long start) {
    List<Double> fibres = outsideCore(question);
    SampleMuscle muscle = NeedleInMuscle.muscle(question, needle);
    SpikeCount spikes = NeedleInMuscle.spikes(question, muscle, question.highPassHz());
    return new NeedleDocument(
        NeedleDocument.SCHEMA,
        question.needle().name(),
        question.needle().kind(),
        question.settings().angleDeg(),
        question.highPassHz(),
        question.fibre().diameterUm(),
        new NeedleDocument.ContactPart(question.contactOhmM2(), question.contactFPerM2()),
        new NeedleDocument.Medium(
            question.settings().tissue().acrossSPerM(), question.settings().tissue().alongSPerM()),
        mesh(needle.report()),
        needle.coreToReferenceOhm(),
        question.distancesMm().stream().map(mm -> lead(needle, mm)).toList(),
        potentials(question, potentials, fibres),
        fibres.stream().map(mm -> part(contribution(mm))).toList(),
        new NeedleDocument.Uptake(orNull(fallOff.distanceAt(200)), orNull(fallOff.distanceAt(50))),
        reach(),
        response.thermalNoiseUv(question.highPassHz(), NOISE_TO_HZ),
        NeedleInMuscle.shares(spikes),
        NeedleInMuscle.part(question, muscle, spikes, response, potentials),
        NeedleSpectra.spectra(this, fibres),
        NeedleSpectra.radial(this, fibres),
        Shouldering.part(shoulders),
        null,
        (System.nanoTime() - start) / 1e9,
        null);
  }

  /** How far thin, usual and thick fibres, and the one asked for, are heard. */
  private List<NeedleDocument.Reach> reach() {
    TreeSet<Double> sizes = new TreeSet<>(REACH_UM);
    sizes.add(question.fibre().diameterUm());
    List<NeedleDocument.Reach> all = new ArrayList<>();
    for (double um : sizes) {
      FallOff own =
          um == question.fibre().diameterUm()
              ? fallOff
              : new FallOff(
                  potentials,
                  question.fibre().withDiameterUm(um),
                  COARSE_US,
                  new Pickup(Cable.defaults(), question.highPassHz()));
      for (double uv : question.reachUv()) {
        all.add(new NeedleDocument.Reach(um, uv, orNull(own.distanceAt(uv))));
      }
    }
    return all;
  }

  /** Distances at which the fibre does not reach into the core. */
  private static List<Double> outsideCore(NeedleQuestion question) {
    double radiusMm = question.fibre().diameterUm() / 2000;
    return question.distancesMm().stream().filter(mm -> mm >= radiusMm).toList();
  }

  private static NeedleDocument.Mesh mesh(MeshReport report) {
    Double refinement = report.refinementErrorRatio();
    return new NeedleDocument.Mesh(
        report.triangles(),
        report.rowSumErrorRatio(),
        report.fluxErrorRatio(),
        refinement == null ? 0 : refinement);
  }

  private static NeedleDocument.Lead lead(SolvedNeedle needle, double distanceMm) {
    double[] lead = needle.leadOhm(0, distanceMm, 0);
    return new NeedleDocument.Lead(
        distanceMm, Math.hypot(lead[0], lead[1]), Math.toDegrees(Math.atan2(lead[1], lead[0])));
  }

  private static List<NeedleDocument.Potential> potentials(
      NeedleQuestion question, NeedlePotentialSolver solver, List<Double> distancesMm) {
    TreeSet<Double> filters = new TreeSet<>(List.of(0.0, 500.0, 1000.0));
    filters.add(question.highPassHz());
    List<NeedleDocument.Potential> all = new ArrayList<>();
    for (double distanceMm : distancesMm) {
      FibreGeometry geometry = question.fibre().withDistanceMm(distanceMm);
      for (double highPassHz : filters) {
        FibrePotential potential = solver.solve(geometry, STEP_US, Pickup.filtered(highPassHz));
        all.add(
            new NeedleDocument.Potential(
                distanceMm, highPassHz, potential.amplitudeUv(), potential.riseTimeUs()));
      }
    }
    return all;
  }

  private static NeedleDocument.Part part(Contribution c) {
    return new NeedleDocument.Part(
        c.distanceMm(),
        c.pointUv(),
        c.averagingRatio(),
        c.insulationRatio(),
        c.metalRatio(),
        c.cannulaRatio(),
        c.contactRatio(),
        c.cableRatio(),
        c.filterRatio(),
        c.totalUv());
  }

  private static @Nullable Double orNull(OptionalDouble value) {
    return value.isPresent() ? value.getAsDouble() : null;
  }

  NeedleQuestion question() {
    return question;
  }

  NeedleDocument document() {
    return document;
  }

  FallOff fallOff() {
    return fallOff;
  }

  /** Magnitude of the lead along the core's normal. */
  double leadOhm(double distanceMm) {
    double[] lead = needle.leadOhm(0, distanceMm, 0);
    return Math.hypot(lead[0], lead[1]);
  }

  /** The fibre's potential at a distance, without cable. */
  FibrePotential potential(double distanceMm, double highPassHz) {
    return potentials.solve(
        question.fibre().withDistanceMm(distanceMm), STEP_US, Pickup.filtered(highPassHz));
  }

  /** What each part does at a distance. */
  Contribution contribution(double distanceMm) {
    return contributions.computeIfAbsent(distanceMm, parts::at);
  }

  /** Spectrum of the fibre's potential at a distance, without cable and filter. */
  PotentialSpectrum spectrum(double distanceMm) {
    return spectra.computeIfAbsent(distanceMm, mm -> new PotentialSpectrum(potential(mm, 0)));
  }

  /** What a second fibre does to a potential. */
  ShoulderMap shoulders() {
    return shoulders;
  }

  /** Amplitude at a distance, without cable and filter. */
  double rawUv(double distanceMm) {
    return filteredUv(distanceMm, 0);
  }

  /** Amplitude at a distance, without cable. */
  double filteredUv(double distanceMm, double highPassHz) {
    return potential(distanceMm, highPassHz).amplitudeUv();
  }
}
