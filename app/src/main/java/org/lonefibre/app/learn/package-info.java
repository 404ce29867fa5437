/** The hidden command {@code learn}: what is done most, once, so that later starts are quick. */
@NullMarked
package org.lonefibre.app.learn;

import org.jspecify.annotations.NullMarked;
