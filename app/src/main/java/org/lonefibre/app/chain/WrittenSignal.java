package org.lonefibre.app.chain;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javax.sound.sampled.AudioFileFormat;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.lonefibre.analysis.chain.TestSignal;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.WholeFile;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** The test signal as a file: WAV for a player, EDF+ for programs that read recordings. */
final class WrittenSignal {

  private static final int WAV_RATE_HZ = 48_000;
  private static final int WAV_LARGEST = 29_000;
  private static final int EDF_RATE_HZ = 50_000;
  private static final double EDF_LARGEST_UV = 1000;
  private static final double EDF_STEP_UV = 0.05;

  private WrittenSignal() {}

  /**
   * Writes the signal.
   *
   * @return its rate in Hz
   */
  static int write(Path file) throws IOException {
    String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
    if (name.endsWith(".wav")) {
      WholeFile.write(file, wav());
      return WAV_RATE_HZ;
    }
    if (name.endsWith(".edf")) {
      RecordingDoor.write(new Signal(), "CHAIN-TEST", file);
      return EDF_RATE_HZ;
    }
    throw new InputFault(
        "--write", "", "a name that ends with .wav or .edf", file.toString(), "name it so");
  }

  private static byte[] wav() throws IOException {
    double[] samples = new TestSignal().samplesRatio(WAV_RATE_HZ);
    ByteBuffer bytes = ByteBuffer.allocate(2 * samples.length).order(ByteOrder.LITTLE_ENDIAN);
    for (double sample : samples) {
      bytes.putShort((short) Math.rint(WAV_LARGEST * sample));
    }
    AudioFormat format = new AudioFormat(WAV_RATE_HZ, Short.SIZE, 1, true, false);
    ByteArrayOutputStream file = new ByteArrayOutputStream();
    AudioSystem.write(
        new AudioInputStream(new ByteArrayInputStream(bytes.array()), format, samples.length),
        AudioFileFormat.Type.WAVE,
        file);
    return file.toByteArray();
  }

  /** The signal as a recording of one channel. */
  private static final class Signal implements Recording {

    private final double[] samplesUv;
    private final Channel channel;

    Signal() {
      samplesUv = new TestSignal().samplesRatio(EDF_RATE_HZ);
      for (int i = 0; i < samplesUv.length; i++) {
        samplesUv[i] *= EDF_LARGEST_UV;
      }
      channel =
          new Channel(
              1,
              "Test",
              "uV",
              Channel.Calibration.MICROVOLT,
              TimeBase.ofHz((long) EDF_RATE_HZ),
              samplesUv.length,
              List.of(new Segment(0, samplesUv.length, 0)),
              Short.MIN_VALUE * EDF_STEP_UV,
              Short.MAX_VALUE * EDF_STEP_UV,
              EDF_STEP_UV,
              "");
    }

    @Override
    public String format() {
      return "test signal";
    }

    @Override
    public Optional<java.time.LocalDateTime> findStart() {
      return Optional.empty();
    }

    @Override
    public List<Channel> channels() {
      return List.of(channel);
    }

    @Override
    public List<Annotation> annotations() {
      return List.of();
    }

    @Override
    public List<Finding> findings() {
      return List.of();
    }

    @Override
    public void read(Channel of, long first, double[] destination, int offset, int length) {
      System.arraycopy(samplesUv, Math.toIntExact(first), destination, offset, length);
    }

    @Override
    public void close() {
      // Nothing is open.
    }
  }
}
