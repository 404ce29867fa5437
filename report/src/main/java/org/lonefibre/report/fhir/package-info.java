/**
 * The result for the hospital's record: bundles of HL7 FHIR, releases 4 and 5.
 *
 * <ol>
 *   <li>{@code Elements} and {@code Components} are the data types that resources are made of;
 *       {@code LocalCode} the codes that no published system was found to have, {@link
 *       org.lonefibre.report.fhir.LocalCodes} their list for others.
 *   <li>{@code Circumstances} says who, when and how far it is settled.
 *   <li>{@code SignalObservation}, {@code StudyObservation}, {@code ReportResource} and {@code
 *       Companions} write the resources.
 *   <li>{@link org.lonefibre.report.fhir.FhirBundle} is the door.
 * </ol>
 */
@NullMarked
package org.lonefibre.report.fhir;

import org.jspecify.annotations.NullMarked;
