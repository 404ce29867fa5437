/**
 * WAV: RIFF and its big-endian and 64-bit forms (Microsoft and IBM 1991, Multimedia Programming
 * Interface; WAVE_FORMAT_EXTENSIBLE, Microsoft 2001; RF64, EBU Tech 3306, and BW64, ITU-R BS.2088),
 * read by position.
 *
 * <ol>
 *   <li>{@code WavChunks} walks over the chunks; no size in the file is believed beyond its end.
 *   <li>{@code WavFormat} reads the format chunk, and refuses what loses something of the signal.
 *   <li>{@code WavData} turns bytes into samples; {@code WavRecording} is what comes out.
 * </ol>
 *
 * <p>The JDK's {@code javax.sound} is not used: it reads streams, not positions, and neither RIFX,
 * RF64 nor odd widths.
 */
@NullMarked
package org.lonefibre.formats.wav;

import org.jspecify.annotations.NullMarked;
