/**
 * A motor unit: one axon that fires, and the fibres that follow it.
 *
 * <ol>
 *   <li>{@link org.lonefibre.model.motorunit.FiringSettings} and {@link
 *       org.lonefibre.model.motorunit.Firing} give the discharges: a renewal process with a mean
 *       that may drift and pause, with doublets on request.
 *   <li>{@link org.lonefibre.model.motorunit.FibreScenario} is a fibre of the unit: its geometry,
 *       its place in time, its end-plate. {@link org.lonefibre.model.motorunit.AxonBranch} is what
 *       several fibres share beyond the axon.
 *   <li>{@link org.lonefibre.model.motorunit.MotorUnitScenario} puts them together.
 *   <li>{@link org.lonefibre.model.motorunit.MotorUnit} runs it and gives {@link
 *       org.lonefibre.model.motorunit.UnitActivity}: the moment each fibre fired at each discharge,
 *       or that it did not.
 *   <li>{@link org.lonefibre.model.motorunit.SampleMuscle} strews the fibres of many units about a
 *       solved needle, by {@link org.lonefibre.model.motorunit.SampleMuscleSettings} and the hidden
 *       {@code MuscleDraw}. {@link org.lonefibre.model.motorunit.SpikeCount} says how many fibres
 *       are in a spike (hidden {@code SpikeCounter}) and the fibre density (hidden {@code
 *       FibreDensity}); {@link org.lonefibre.model.motorunit.MuscleBackground} is what distant
 *       fibres give together.
 * </ol>
 */
@NullMarked
package org.lonefibre.model.motorunit;

import org.jspecify.annotations.NullMarked;
