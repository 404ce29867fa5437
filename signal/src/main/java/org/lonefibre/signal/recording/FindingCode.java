package org.lonefibre.signal.recording;

import java.util.Locale;

/**
 * What a finding is about. Each code has a page in {@code docs/findings}; codes are fixed once
 * released.
 */
public enum FindingCode {
  /** Jitter below 5 us: split fibre or direct stimulation. */
  LOW_JITTER,
  /** Intervals fall into two clusters (flip-flop). */
  TWO_CLUSTERS,
  /** Intervals drift slowly. */
  TREND,
  /** Intervals depend on the preceding inter-discharge interval. */
  RATE_DEPENDENCE,
  /** Fewer than 50 differences. */
  FEW_DIFFERENCES,
  /** Fewer than 20 differences: unmeasurable. */
  TOO_FEW_DIFFERENCES,
  /** All followers jitter together. */
  TRIGGER_ABNORMAL,
  /** Followers vanish together. */
  AXONAL_BLOCK,
  /** The trigger potential is missing while followers are present. */
  TRIGGER_BLOCKING,
  /** A potential loses a step of its size. */
  COMPONENT_DROP_OUT,
  /** The skin over the muscle was cooler than is asked for. */
  COOL_MUSCLE,
  /** Interval over 4 ms. */
  LONG_INTERVAL,
  /** Interval under 150 us. */
  SHORT_INTERVAL,
  /** Two potentials of a unit overlap so that the scale of the jitter is not well known. */
  OVERLAPPING_SHAPES,
  /** The signal does not return near the baseline between the potentials. */
  NO_BASELINE_RETURN,
  /** The potential is made by more than one fibre. */
  COMPOSITE,
  /** Whether one fibre made the potential cannot be decided. */
  DOUBTFUL_POTENTIAL,
  /** Rise time over the trade's limit. */
  RISE_TIME,
  /** Amplitude under the trade's limit. */
  SMALL_AMPLITUDE,
  /** Notch or shoulder on the potential. */
  NOTCH,
  /** The shape varies from sweep to sweep more than noise explains. */
  SHAPE_VARIANCE,
  /** No fibre of the model looks like this before a needle. */
  SHAPE_UNLIKE_ONE_FIBRE,
  /** Rising phases are not parallel. */
  NOT_PARALLEL,
  /** Blocking over 50 %: jitter of the rest is not reliable. */
  HIGH_BLOCKING,
  /** Jitter within twice its timing floor. */
  NEAR_FLOOR,
  /** Excluded by a person. */
  EXCLUDED_BY_PERSON,
  /** The signal is clipped. */
  CLIPPED,
  /** The signal is constant. */
  FLAT_LINE,
  /** Samples wrap around the converter's range. */
  WRAP_AROUND,
  /** Mains interference. */
  MAINS,
  /** Slow drift of the baseline. */
  DRIFT,
  /** Noise is high. */
  HIGH_NOISE,
  /** The spectrum ends in a wall, as lossy coding leaves it. */
  LOSSY_CODING,
  /** The gain follows the loudness. */
  AUTOMATIC_GAIN,
  /** The sampling rate is too low. */
  SAMPLING_TOO_SLOW,
  /** No unit: amplitudes are unknown. */
  UNCALIBRATED,
  /** Amplitude is outside what a fibre can give. */
  IMPLAUSIBLE_AMPLITUDE,
  /** The recording was filtered before. */
  FILTERED_TWICE,
  /** Mains interference was removed on request. */
  MAINS_REMOVED,
  /** Time jumps within the recording. */
  GAP,
  /** The recording is too short. */
  SHORT_RECORDING,
  /** No discharges were found. */
  NO_DISCHARGES,
  /** The firing rate is not plausible. */
  IRREGULAR_RATE,
  /** Two discharges closer than the refractory time. */
  DOUBLETS,
  /** Stimulation is intermittently below threshold. */
  SUBLIMINAL_STIMULATION,
  /** The muscle fibre was stimulated directly. */
  DIRECT_STIMULATION,
  /** A part of the latency is common to all end-plates. */
  COMMON_LATENCY,
  /** The stimulus is known only to the sample. */
  STIMULUS_GRID,
  /** No stimuli were found. */
  NO_STIMULI,
  /** The first stimuli were left out. */
  DROPPED_STIMULI,
  /** Pairs share a trigger and are not independent. */
  SHARED_TRIGGER,
  /** No limit set fits. */
  NO_LIMITS,
  /** Several limit sets fit. */
  SEVERAL_LIMITS,
  /** A limit set is remembered, not read: off. */
  LIMITS_FROM_MEMORY,
  /** The limit set does not state the size of the needle. */
  NEEDLE_SIZE_NOT_STATED,
  /** The filter differs from that of the limit set. */
  FILTER_DIFFERS,
  /** The age lies within a year of the next column. */
  AGE_COLUMNS,
  /** Muscle, age, needle or activation was not given. */
  MISSING_DECLARATION,
  /** A value lies within 2 us of its limit. */
  CLOSE_CALL,
  /** Fewer signals than the limit set was collected with. */
  TOO_FEW_SIGNALS,
  /** A signal blocked too much to be measured. */
  MEAN_IS_LOWER_BOUND,
  /** The same pair may have been recorded at two sites. */
  SAME_PAIR_TWICE,
  /** The number of records differs from the header. */
  RECORD_COUNT,
  /** Bytes after the last whole record were left out. */
  TRAILING_BYTES,
  /** An annotation could not be read. */
  ANNOTATION_UNREADABLE,
  /** Annotation times are coarse. */
  ANNOTATION_RESOLUTION,
  /** Text is not valid UTF-8. */
  TEXT_ENCODING,
  /** The date of the recording is not valid. */
  INVALID_DATE,
  /** Several channels have one label. */
  DUPLICATE_LABEL,
  /** A channel could not be read. */
  CHANNEL_REFUSED,
  /** Physical maximum below minimum: the gain is negative. */
  INVERTED_RANGE,
  /** Samples are missing. */
  MISSING_SAMPLES,
  /** The file leaves something out, and its standard says what then holds. */
  FORMAT_DEFAULT,
  /** What the header says and what the file holds, or two fields of it, contradict each other. */
  HEADER_CONTRADICTION;

  /** The kebab-case code used in documents. */
  public String code() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
