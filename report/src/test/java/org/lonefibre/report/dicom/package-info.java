/** The DICOM file read by the tools of others, and sent to a real archive and to broken ones. */
@NullMarked
package org.lonefibre.report.dicom;

import org.jspecify.annotations.NullMarked;
