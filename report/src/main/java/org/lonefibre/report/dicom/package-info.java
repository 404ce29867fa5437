/**
 * The report for the hospital's archive of images: DICOM, Encapsulated PDF, sent by STOW-RS.
 *
 * <ol>
 *   <li>{@code Part10} writes elements, {@code DicomUid} makes identities out of content.
 *   <li>{@link org.lonefibre.report.dicom.EncapsulatedPdf} wraps the printed report.
 *   <li>{@link org.lonefibre.report.dicom.Leaving} says what would leave this computer.
 *   <li>{@link org.lonefibre.report.dicom.Pacs} sends it with the HTTP client of the JDK; {@code
 *       StowAnswer} believes the archive only when it names the instance.
 * </ol>
 */
@NullMarked
package org.lonefibre.report.dicom;

import org.jspecify.annotations.NullMarked;
