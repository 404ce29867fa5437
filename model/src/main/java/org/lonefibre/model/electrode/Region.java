package org.lonefibre.model.electrode;

/** What a part of a needle's surface is made of. */
public enum Region {
  /** The recording metal. */
  CORE,
  /** The shaft outside core, ring and port; metal, unless the reference is remote. */
  SHAFT,
  /** Insulation. */
  INSULATION
}
