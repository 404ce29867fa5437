/**
 * The figures of a report: vector graphics with axes, units or scale bars, the same in a browser
 * and on paper.
 *
 * <ol>
 *   <li>{@code Svg} writes the elements: SVG 1.1, presentation attributes only, whole sizes,
 *       hostile text made harmless. Its output depends on nothing but its input.
 *   <li>{@code Scale} maps values to places and chooses ticks; {@code Trace} turns samples into a
 *       path: extremes of each pixel column first, then points that a reader could not see apart.
 *       No decimation hides a spike.
 *   <li>{@link org.lonefibre.report.figure.StripPlot} draws one mark a signal against the limits.
 *   <li>{@link org.lonefibre.report.figure.SignalFigure} draws one signal from three panels: {@code
 *       SweepsPanel}, {@code ShapePanel}, {@code SequencePanel}.
 *   <li>{@link org.lonefibre.report.figure.RecordingFigure} draws a whole recording, a strip for
 *       each channel.
 *   <li>For slides, from plain numbers: {@link org.lonefibre.report.figure.CurveFigure} draws
 *       {@link org.lonefibre.report.figure.Curve}s over two {@link
 *       org.lonefibre.report.figure.Axis}; {@link org.lonefibre.report.figure.TracesFigure}
 *       waveforms with scale bars; {@link org.lonefibre.report.figure.FactorsFigure} factors as
 *       bars, {@link org.lonefibre.report.figure.MapFigure} a shaded table. {@link
 *       org.lonefibre.report.figure.FigurePng} makes pixels of any figure.
 * </ol>
 *
 * <p>Nothing is told by colour alone: what differs, differs in shape, dash and word as well.
 */
@NullMarked
package org.lonefibre.report.figure;

import org.jspecify.annotations.NullMarked;
