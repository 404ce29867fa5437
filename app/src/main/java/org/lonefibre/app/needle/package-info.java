/**
 * The needle command: what a needle hears, and why.
 *
 * <ol>
 *   <li>{@link org.lonefibre.app.needle.NeedleCommand} reads the options into {@code
 *       NeedleQuestion}.
 *   <li>{@code NeedleAnswer} has the model solve it, through a cache, and keeps what figures need.
 *   <li>{@code NeedleDocument} is the document, lonefibre-needle-1.
 *   <li>{@code NeedleSpectra}, {@code Shouldering} and {@code TradeClaims} set the model beside
 *       what was measured, a second fibre, and what the trade holds.
 *   <li>{@code NeedleText} prints it; {@code NeedleFigures}, {@code SpectrumFigures} and {@code
 *       NeedlePage} make the folder of {@code --out}.
 * </ol>
 */
@NullMarked
package org.lonefibre.app.needle;

import org.jspecify.annotations.NullMarked;
