@NullMarked
package org.lonefibre.validation.campaign;

import org.jspecify.annotations.NullMarked;
