package org.lonefibre.app;

import java.lang.reflect.Modifier;

/** Whether a type can be named from any package. */
final class Visibility {

  private Visibility() {}

  /** Public, and so is every type around it. */
  static boolean isVisible(Class<?> type) {
    for (Class<?> around = type; around != null; around = around.getEnclosingClass()) {
      if (!Modifier.isPublic(around.getModifiers())) {
        return false;
      }
    }
    return true;
  }
}
