/** Tests of the demo study. */
@NullMarked
package org.lonefibre.app.demo;

import org.jspecify.annotations.NullMarked;
