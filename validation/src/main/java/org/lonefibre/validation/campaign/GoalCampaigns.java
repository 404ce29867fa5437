package org.lonefibre.validation.campaign;

import java.util.List;
import java.util.Optional;

/** The campaigns whose pages state goals. */
public final class GoalCampaigns {

  private static final List<GoalCampaign> ALL =
      List.of(
          new IntervalCampaign(),
          new TimingCampaign(),
          new GradingCampaign(),
          new UnitsCampaign(),
          new RejectionCampaign(),
          new NeedleCampaign());

  private GoalCampaigns() {}

  /** All of them, in the order of their pages. */
  public static List<GoalCampaign> listAll() {
    return ALL;
  }

  /** The one of a name. */
  public static Optional<GoalCampaign> named(String name) {
    return ALL.stream().filter(campaign -> campaign.name().equals(name)).findFirst();
  }
}
