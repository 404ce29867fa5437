package org.lonefibre.app.validate;

import java.util.Iterator;
import org.lonefibre.validation.campaign.GoalCampaign;
import org.lonefibre.validation.campaign.GoalCampaigns;

/** Names of the campaigns that state goals. */
final class CampaignNames implements Iterable<String> {

  @Override
  public Iterator<String> iterator() {
    return GoalCampaigns.listAll().stream().map(GoalCampaign::name).iterator();
  }
}
