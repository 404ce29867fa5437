/**
 * HDF5, MATLAB 7.3 and time series of NWB: {@link org.lonefibre.formats.hdf.HdfReader} reads the
 * data set that a person names, by jHDF.
 *
 * <ol>
 *   <li>{@code HdfTree} lists what could be a signal; {@code HdfSeries} is one with what the file
 *       says of it.
 *   <li>{@code HdfBlocks} reads it in blocks.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.hdf;

import org.jspecify.annotations.NullMarked;
