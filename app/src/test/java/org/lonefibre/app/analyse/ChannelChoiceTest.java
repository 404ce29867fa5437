package org.lonefibre.app.analyse;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

@Tag("contract")
final class ChannelChoiceTest {

  private static final Channel EMG = channel(1, "EMG", "uV");
  private static final Channel MARKER = channel(2, "Marker", "");
  private static final Channel SECOND = channel(3, "2", "mV");

  private static Channel channel(int number, String label, String unit) {
    return new Channel(
        number,
        label,
        unit,
        Channel.Calibration.NONE,
        TimeBase.ofHz(20_000),
        10,
        List.of(new Segment(0, 10, 0)),
        null,
        null,
        null,
        "");
  }

  private static ChannelChoice of(Channel... channels) {
    return new ChannelChoice("a.edf", List.of(channels));
  }

  @Test
  void oneSignalNeedsNoName() throws InputFault {
    assertThat(of(EMG).signal(null, null)).isEqualTo(EMG);
    assertThat(of(EMG, MARKER).signal(null, MARKER)).isEqualTo(EMG);
  }

  @Test
  void ofSeveralOneMustBeNamedAndTheListIsGiven() {
    assertThatThrownBy(() -> of(EMG, MARKER).signal(null, null))
        .isInstanceOf(InputFault.class)
        .hasMessageContaining("a.edf: channel:")
        .hasMessageContaining("1 EMG (uV, 20000 Hz); 2 Marker (no unit, 20000 Hz)");
  }

  @Test
  void aLabelGoesBeforeANumber() throws InputFault {
    assertThat(of(EMG, MARKER, SECOND).signal("2", null)).isEqualTo(SECOND);
    assertThat(of(EMG, MARKER).signal("2", null)).isEqualTo(MARKER);
    assertThat(of(EMG, MARKER).signal(" emg ", null)).isEqualTo(EMG);
  }

  @Test
  void aLabelThatSeveralHaveAsksForANumber() throws InputFault {
    ChannelChoice twins = of(channel(1, "EMG", "uV"), channel(2, "EMG", "uV"));
    assertThatThrownBy(() -> twins.signal("EMG", null)).hasMessageContaining("of 2 signals");
    assertThat(twins.signal("2", null).number()).isEqualTo(2);
  }

  @Test
  void whatIsNotThereIsRefused() {
    assertThatThrownBy(() -> of(EMG).signal("ECG", null)).hasMessageContaining("1 EMG");
    assertThatThrownBy(() -> of(EMG).signal("3", null)).hasMessageContaining("found 3");
    assertThatThrownBy(() -> of().signal(null, null)).hasMessageContaining("none");
    assertThatThrownBy(() -> of(EMG, MARKER).signal("EMG", EMG)).hasMessageContaining("another");
  }
}
