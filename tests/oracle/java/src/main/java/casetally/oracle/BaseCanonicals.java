package casetally.oracle;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.IValidationSupport;
import org.hl7.fhir.instance.model.api.IBaseResource;

/**
 * Finds base definitions named with the FHIR version, such as {@code …/SimpleQuantity|4.0.1}: the published R4
 * package snapshots name them so, while the library stores the base definitions without a version.
 */
final class BaseCanonicals implements IValidationSupport {
  private static final String VERSION = "|4.0.1";

  private final FhirContext context;
  private IValidationSupport definitions;

  BaseCanonicals(FhirContext context) {
    this.context = context;
  }

  void lookIn(IValidationSupport support) {
    definitions = support;
  }

  @Override
  public FhirContext getFhirContext() {
    return context;
  }

  @Override
  public IBaseResource fetchStructureDefinition(String url) {
    return versioned(url) ? definitions.fetchStructureDefinition(bare(url)) : null;
  }

  @Override
  public IBaseResource fetchValueSet(String url) {
    return versioned(url) ? definitions.fetchValueSet(bare(url)) : null;
  }

  @Override
  public IBaseResource fetchCodeSystem(String url) {
    return versioned(url) ? definitions.fetchCodeSystem(bare(url)) : null;
  }

  private static boolean versioned(String url) {
    return url != null && url.endsWith(VERSION);
  }

  private static String bare(String url) {
    return url.substring(0, url.length() - VERSION.length());
  }
}
