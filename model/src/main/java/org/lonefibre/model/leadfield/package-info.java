/**
 * What one ampere anywhere in the muscle gives at a needle: its lead field, by boundary elements.
 *
 * <ol>
 *   <li>By reciprocity the lead is the tissue's potential when one ampere enters at the core and
 *       leaves at the reference; one solution serves every fibre.
 *   <li>The hidden {@code ScaledMedium} stretches muscle until it conducts alike in all directions;
 *       {@code Panels} holds the stretched triangles and their exact integrals.
 *   <li>{@code Matrices} lays what each triangle does at the middle of each other; {@code
 *       BoundarySystem} is the equation: unknown potential on insulation, unknown current on metal,
 *       with {@link org.lonefibre.model.leadfield.Contact} between metal and tissue
 *       (complete-electrode model). {@code StepSolver} solves it in steps, helped by {@code
 *       BlockFactors} (docs/decisions/0010-solving-in-steps.md); {@code BoundaryMatrix} keeps what
 *       was tried at one contact for the others
 *       (docs/decisions/0031-what-was-tried-at-other-contacts.md); {@code Vectors} is their
 *       arithmetic.
 *   <li>{@code NeedleSystem} combines solutions of one volt until the currents are those asked for;
 *       {@link org.lonefibre.model.leadfield.Construction} says how much of the needle is there.
 *   <li>{@link org.lonefibre.model.leadfield.LeadFieldSolver} refines the mesh until {@link
 *       org.lonefibre.model.leadfield.SolvedNeedle} stays, and refuses a field whose {@link
 *       org.lonefibre.model.leadfield.MeshReport} is bad; {@link
 *       org.lonefibre.model.leadfield.LeadFieldCache} keeps solutions on disk.
 *   <li>{@link org.lonefibre.model.leadfield.NeedleLead} is the field along parallel fibres, smooth
 *       and quick; {@link org.lonefibre.model.leadfield.LeadTable} the same at any distance before
 *       the core.
 * </ol>
 */
@NullMarked
package org.lonefibre.model.leadfield;

import org.jspecify.annotations.NullMarked;
