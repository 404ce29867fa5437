package org.lonefibre.analysis.reference;

import java.util.List;

/**
 * What a laboratory adds to the published limits.
 *
 * @param files its own sets
 * @param confirmations rows from memory it has read in print
 * @param choices the set it picked where several fit; the first that holds counts
 */
public record LaboratoryLimits(
    List<LimitFile> files, List<LimitConfirmation> confirmations, List<LimitChoice> choices) {

  /** Nothing. */
  public static final LaboratoryLimits NONE = new LaboratoryLimits(List.of(), List.of(), List.of());

  /** Copies the lists. */
  public LaboratoryLimits {
    files = List.copyOf(files);
    confirmations = List.copyOf(confirmations);
    choices = List.copyOf(choices);
  }
}
