/** Bundles checked by the validator of others. */
@NullMarked
package org.lonefibre.report.fhir;

import org.jspecify.annotations.NullMarked;
