package org.lonefibre.formats.hdf;

import io.jhdf.api.Dataset;
import org.jspecify.annotations.Nullable;

/**
 * A signal in an HDF5 file.
 *
 * @param data its numbers
 * @param timestamps a time in seconds for each; null if none
 * @param rateHz rate in Hz; null if none is declared
 * @param startS when it starts, in s after the reference time of the file; 0 if none is declared
 * @param unit unit of a sample, empty if none
 * @param conversion unit of a sample in one of the numbers
 * @param offset sample that the number 0 stands for
 * @param isSeries whether it is a time series of NWB
 */
record HdfSeries(
    Dataset data,
    @Nullable Dataset timestamps,
    @Nullable Double rateHz,
    double startS,
    String unit,
    double conversion,
    double offset,
    boolean isSeries) {}
