package org.lonefibre.model.leadfield;

/** How much of a needle is there: what it is made of, switched on one by one. */
public enum Construction {
  /** No needle: the current leaves evenly from the core's surface into muscle all around. */
  CORE_ALONE,
  /** All insulated; the current leaves the core evenly, so the core averages and nothing more. */
  EVEN_CORE,
  /** The core is metal, the shaft insulated, the reference remote. */
  METAL_CORE,
  /** Core and shaft are metal; the shaft is the reference. */
  METAL_SHAFT
}
