/**
 * Recordings whose truth is known.
 *
 * <ol>
 *   <li>{@link org.lonefibre.model.simulation.SimulationScenario} states one recording: motor units
 *       near the electrode, {@link org.lonefibre.model.simulation.BackgroundSettings} for those far
 *       away, the {@link org.lonefibre.model.simulation.AmplifierSettings}, and, if the nerve is
 *       stimulated, the {@link org.lonefibre.model.simulation.StimulationScenario}.
 *   <li>{@link org.lonefibre.model.simulation.RecordingSimulator} makes it. The hidden {@code
 *       Template} holds each potential on a fine grid through the amplifier's low-pass; {@code
 *       Canvas} adds it at exact times between the samples; {@code Amplifier} adds noise, high-pass
 *       and converter; {@code TruthKeeper} writes down what was done.
 *   <li>{@link org.lonefibre.model.simulation.SimulatedRecording} is the result, with its {@link
 *       org.lonefibre.model.simulation.RecordingTruth}; several make a {@link
 *       org.lonefibre.model.simulation.GroundTruth}.
 *   <li>The hidden {@code UnitPainter} adds a unit's fibres: near ones by a {@code Template}, the
 *       distant ones of a sample muscle by a {@code SampledTemplate}, after each step of a needle
 *       that slips ({@link org.lonefibre.model.simulation.MovementSettings}).
 *   <li>{@link org.lonefibre.model.simulation.StudyScenario} draws whole studies by the hidden
 *       {@code StudyDraw}, from wishes or from a sample muscle ({@link
 *       org.lonefibre.model.simulation.SampleMuscleUse}), with {@link
 *       org.lonefibre.model.simulation.ActivitySettings} and {@link
 *       org.lonefibre.model.simulation.StimulusSettings} for what is not steady; {@link
 *       org.lonefibre.model.simulation.DemoStudy} is one laboratory's invented study, {@link
 *       org.lonefibre.model.simulation.ShapeFamily} changes the shapes under both.
 *   <li>{@link org.lonefibre.model.simulation.ExplicitRecording} places given potentials at given
 *       times, for tests.
 * </ol>
 *
 * <p>The same seed gives the same bits on every machine where the electrode is a point, or a small
 * surface, against a point behind it; solved needles may differ in the last bits.
 */
@NullMarked
package org.lonefibre.model.simulation;

import org.jspecify.annotations.NullMarked;
