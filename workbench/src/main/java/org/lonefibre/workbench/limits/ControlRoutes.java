package org.lonefibre.workbench.limits;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import org.lonefibre.analysis.controls.ControlGroup;
import org.lonefibre.analysis.controls.ControlLimits;
import org.lonefibre.analysis.controls.OwnLimit;
import org.lonefibre.analysis.controls.VolunteerStudies;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.study.Desk;
import org.lonefibre.workbench.study.Volunteers;

/** Limits of the laboratory's own from its kept studies of healthy volunteers. */
public final class ControlRoutes {

  private final Desk desk;

  /** Routes beside the studies of a desk. */
  public ControlRoutes(Desk desk) {
    this.desk = desk;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.get("/api/controls", this::show);
  }

  private void show(Context context) throws IOException {
    VolunteerStudies volunteers = Volunteers.controls(desk.store(), desk.analyst()::gradingVersion);
    ObjectNode view = Json.object();
    view.put("subjects", volunteers.controls().stream().map(c -> c.subject()).distinct().count());
    ArrayNode groups = view.putArray("groups");
    for (ControlGroup group : ControlLimits.of(volunteers.controls())) {
      ObjectNode one = groups.addObject();
      one.put("muscle", group.muscle());
      one.put("needle", group.needle());
      one.put("activation", Json.tree(group.activation()).asText());
      one.put("subjects", group.subjects());
      one.put("grading", desk.analyst().gradingVersion(group.needle()));
      ArrayNode limits = one.putArray("limits");
      for (OwnLimit limit : group.limits()) {
        ObjectNode of = limits.addObject();
        of.put("what", limit.what());
        of.put("method", limit.method().words());
        of.put("valueUs", limit.valueUs());
        of.put("lowUs", limit.lowUs());
        of.put("highUs", limit.highUs());
        of.put("enough", limit.standing() == OwnLimit.Standing.ENOUGH);
        of.put("fewest", limit.method().fewest());
      }
      one.set("warnings", Json.tree(group.warnings()));
    }
    view.set("leftOut", Json.tree(volunteers.leftOut()));
    LocalServer.json(context, view);
  }
}
