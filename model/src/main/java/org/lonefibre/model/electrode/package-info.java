/**
 * Needles: what they are, and their surface in triangles.
 *
 * <ol>
 *   <li>A {@link org.lonefibre.model.electrode.Needle} is a shaft with a {@link
 *       org.lonefibre.model.electrode.Tip}: side port, bevel or cone. {@link
 *       org.lonefibre.model.electrode.Needles} holds the built-in ones and reads others from keys
 *       and values; the hidden {@code NeedleFields} checks each value and the whole; {@link
 *       org.lonefibre.model.electrode.NeedleFault} names the key, the value and what is allowed.
 *   <li>{@link org.lonefibre.model.electrode.NeedleMesh} makes the surface: the hidden {@code
 *       SidePortSurface}, {@code BevelSurface} and {@code ConeSurface} lay rows of nodes, {@code
 *       Grading} crowds them where current crowds (the edges of core, port and ring), and {@code
 *       SurfaceBuilder} joins equal nodes, cuts quadrilaterals and proves the surface closed.
 *   <li>{@link org.lonefibre.model.electrode.Surface} is the result. Every needle here is its own
 *       mirror image, so only half is laid; {@link org.lonefibre.model.electrode.Surface#whole}
 *       gives both halves for a medium that has no such mirror.
 * </ol>
 *
 * <p>Needle coordinates, in mm: the origin is the middle of the core; y runs along its outward
 * normal; x lies in the plane of shaft and normal, towards the tip; z completes a right-handed
 * system and is the direction of the fibres at angle 0.
 */
@NullMarked
package org.lonefibre.model.electrode;

import org.jspecify.annotations.NullMarked;
