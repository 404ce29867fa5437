package org.lonefibre.report.fhir;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.ValidationOptions;
import java.util.List;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.UnknownCodeSystemWarningValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.instance.model.api.IBaseResource;

/** The validator of the HAPI project with the definitions of the standard that it packs. */
public final class FhirValidator {

  static {
    Logger.getLogger("ca.uhn").setLevel(Level.WARNING);
    Logger.getLogger("org.hl7").setLevel(Level.WARNING);
  }

  private final ca.uhn.fhir.validation.FhirValidator validator;

  /** The validator of a release. */
  public FhirValidator(FhirVersion version) {
    FhirContext context = version == FhirVersion.R4 ? FhirContext.forR4() : FhirContext.forR5();
    PrePopulatedValidationSupport ours = new PrePopulatedValidationSupport(context);
    ours.addCodeSystem((IBaseResource) context.newJsonParser().parseResource(LocalCodes.json()));
    // Systems that nobody may pack, LOINC among them, are a warning; our own codes are checked.
    UnknownCodeSystemWarningValidationSupport unknown =
        new UnknownCodeSystemWarningValidationSupport(context);
    FhirInstanceValidator instances =
        new FhirInstanceValidator(
            new ValidationSupportChain(
                new DefaultProfileValidationSupport(context),
                ours,
                new CommonCodeSystemsTerminologyService(context),
                new InMemoryTerminologyServerValidationSupport(context),
                unknown));
    validator = context.newValidator();
    validator.registerValidatorModule(instances);
  }

  /** What is wrong, a line each: errors, and warnings when asked for. */
  public List<String> messages(String resource, ResultSeverityEnum atLeast) {
    return validator.validateWithResult(resource, new ValidationOptions()).getMessages().stream()
        .filter(m -> m.getSeverity().ordinal() >= atLeast.ordinal())
        .map(m -> m.getSeverity() + " " + m.getLocationString() + ": " + m.getMessage())
        .toList();
  }
}
