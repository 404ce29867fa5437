package org.lonefibre.validation.cases;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

class FibreFamilyFileTest {

  private static final String CARRIED = "/org/lonefibre/analysis/potential/fibre-family.csv";

  @Test
  void theChainCarriesTheFamilyThatTheModelComputes() throws IOException {
    List<String> computed = FibreFamilyFile.lines();
    List<String> carried = carried();
    assertThat(carried).hasSameSizeAs(computed);
    for (int k = 0; k < computed.size(); k++) {
      if (k < 2) {
        assertThat(carried.get(k)).isEqualTo(computed.get(k));
        continue;
      }
      int cut = computed.get(k).lastIndexOf(',');
      assertThat(carried.get(k)).startsWith(computed.get(k).substring(0, cut + 1));
      String[] model = computed.get(k).substring(cut + 1).split(" ", -1);
      String[] chain = carried.get(k).substring(cut + 1).split(" ", -1);
      assertThat(chain).hasSameSizeAs(model);
      for (int i = 0; i < model.length; i++) {
        assertThat(Math.abs(Integer.parseInt(chain[i]) - Integer.parseInt(model[i])))
            .as("line %d, value %d, in 1/10,000 of the size", k + 1, i)
            .isLessThanOrEqualTo(20);
      }
    }
  }

  private static List<String> carried() throws IOException {
    try (InputStream in = FibreFamilyFileTest.class.getResourceAsStream(CARRIED)) {
      assertThat(in).as("resource of the chain").isNotNull();
      return new String(in.readAllBytes(), StandardCharsets.US_ASCII).lines().toList();
    }
  }
}
