package org.lonefibre.validation.cases;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.lonefibre.validation.CaseValidation;

class CaseLibraryTest {

  @Test
  void everyCaseHasAControlAndNamesTheFindingOfItsPitfall() {
    List<LibraryCase> cases = CaseLibrary.listAll();
    Set<String> names = new HashSet<>();
    cases.forEach(one -> names.add(one.id()));
    assertThat(names).hasSameSizeAs(cases);
    for (LibraryCase one : cases) {
      assertThat(one.finding()).as(one.id()).isEqualTo(one.pitfall().code());
      assertThat(one.raised()).as(one.id()).isEqualTo(one.holds());
      assertThat(names).contains(one.holds() ? one.id() + "-control" : one.id());
    }
  }

  @Test
  void aCaseAndItsControlGiveWhatIsExpected() {
    for (LibraryCase one : CaseLibrary.listAll()) {
      if (one.pitfall() == Pitfall.FLIP_FLOP) {
        assertThat(CaseValidation.measure(one).isRight()).as(one.id()).isTrue();
      }
    }
  }
}
