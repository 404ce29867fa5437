package org.lonefibre.store.audit;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.Signature;
import java.security.spec.PKCS8EncodedKeySpec;
import java.security.spec.X509EncodedKeySpec;
import java.util.Base64;
import java.util.List;

/**
 * The Ed25519 key of this installation (RFC 8032). An integrity seal: it shows that a text is the
 * one this installation sealed, not who sat at the screen.
 *
 * <p>Thread rule: safe.
 */
public final class Seal {

  private static final String ALGORITHM = "Ed25519";

  private final PrivateKey secret;
  private final String publicKey;

  private Seal(PrivateKey secret, String publicKey) {
    this.secret = secret;
    this.publicKey = publicKey;
  }

  /** The key in a file, made at first use. */
  public static Seal of(Path file) throws IOException {
    try {
      if (!Files.exists(file)) {
        KeyPair pair = KeyPairGenerator.getInstance(ALGORITHM).generateKeyPair();
        Path fresh = file.resolveSibling(file.getFileName() + ".new");
        Files.writeString(
            fresh,
            text(pair.getPrivate().getEncoded())
                + "\n"
                + text(pair.getPublic().getEncoded())
                + "\n");
        OwnerOnly.file(fresh);
        Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE);
      }
      List<String> lines = Files.readAllLines(file);
      KeyFactory keys = KeyFactory.getInstance(ALGORITHM);
      return new Seal(
          keys.generatePrivate(new PKCS8EncodedKeySpec(Base64.getDecoder().decode(lines.get(0)))),
          lines.get(1));
    } catch (GeneralSecurityException | IndexOutOfBoundsException | IllegalArgumentException e) {
      throw new IOException(file.getFileName() + ": the key of the installation is damaged", e);
    }
  }

  /** The public key, base 64. */
  public String publicKey() {
    return publicKey;
  }

  /** The seal of a text, base 64. */
  public String seal(String content) {
    try {
      Signature signature = Signature.getInstance(ALGORITHM);
      signature.initSign(secret);
      signature.update(content.getBytes(StandardCharsets.UTF_8));
      return text(signature.sign());
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java since 15 has Ed25519", e);
    }
  }

  /** Whether a seal fits a text and a public key. */
  public static boolean fits(String content, String seal, String publicKey) {
    try {
      PublicKey key =
          KeyFactory.getInstance(ALGORITHM)
              .generatePublic(new X509EncodedKeySpec(Base64.getDecoder().decode(publicKey)));
      Signature signature = Signature.getInstance(ALGORITHM);
      signature.initVerify(key);
      signature.update(content.getBytes(StandardCharsets.UTF_8));
      return signature.verify(Base64.getDecoder().decode(seal));
    } catch (GeneralSecurityException | IllegalArgumentException e) {
      return false;
    }
  }

  private static String text(byte[] bytes) {
    return Base64.getEncoder().encodeToString(bytes);
  }
}
