package org.lonefibre.formats.edf;

class BdfReaderContractTest extends EdfReaderContractTest {

  @Override
  EdfFile blank() {
    return EdfFile.bdf();
  }

  @Override
  boolean isBdf() {
    return true;
  }
}
