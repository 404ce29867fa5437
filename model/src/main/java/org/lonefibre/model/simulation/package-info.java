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
 *   <li>{@link org.lonefibre.model.simulation.StudyScenario} draws whole studies, {@link
 *       org.lonefibre.model.simulation.DemoStudy} is one laboratory's invented study, {@link
 *       org.lonefibre.model.simulation.ShapeFamily} changes the shapes under both.
 *   <li>{@link org.lonefibre.model.simulation.ExplicitRecording} places given potentials at given
 *       times, for tests.
 * </ol>
 *
 * <p>The same seed gives the same bits on every machine. The electrode is a point, or a small
 * surface, against a point behind it, without metal or shaft.
 */
@NullMarked
package org.lonefibre.model.simulation;

import org.jspecify.annotations.NullMarked;
