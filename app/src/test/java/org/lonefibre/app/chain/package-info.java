/** Tests of the test of the chain. */
@NullMarked
package org.lonefibre.app.chain;

import org.jspecify.annotations.NullMarked;
