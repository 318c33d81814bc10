package casetally.oracle;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.parser.IParser;
import ca.uhn.fhir.parser.LenientErrorHandler;
import ca.uhn.fhir.validation.FhirValidator;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.SnapshotGeneratingValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;

/** The definitions a validator needs, read from package folders; no network anywhere in the chain. */
final class SupportChain {
  private static final Set<String> KINDS = Set.of("StructureDefinition", "ValueSet", "CodeSystem");

  private final FhirContext context;
  private final ValidationSupportChain chain;
  private final int size;

  private SupportChain(FhirContext context, ValidationSupportChain chain, int size) {
    this.context = context;
    this.chain = chain;
    this.size = size;
  }

  static SupportChain load(FhirContext context, List<Path> folders) throws IOException {
    PrePopulatedValidationSupport packages = new PrePopulatedValidationSupport(context);
    IParser parser = context.newJsonParser();
    parser.setParserErrorHandler(new LenientErrorHandler(false));
    int size = 0;
    for (Path folder : folders) {
      for (Path file : definitionFiles(folder)) {
        packages.addResource(parser.parseResource(Files.readString(file)));
        size++;
      }
    }
    BaseCanonicals unversioned = new BaseCanonicals(context);
    ValidationSupportChain chain =
        new ValidationSupportChain(
            packages,
            new DefaultProfileValidationSupport(context),
            unversioned,
            new CommonCodeSystemsTerminologyService(context),
            new InMemoryTerminologyServerValidationSupport(context),
            new SnapshotGeneratingValidationSupport(context));
    unversioned.lookIn(chain);
    return new SupportChain(context, chain, size);
  }

  /** A validator as a strict receiver would set it: a profile that is not loaded is an error. */
  FhirValidator validator() {
    FhirInstanceValidator instance = new FhirInstanceValidator(chain);
    instance.setErrorForUnknownProfiles(true);
    FhirValidator validator = context.newValidator();
    validator.registerValidatorModule(instance);
    return validator;
  }

  int size() {
    return size;
  }

  private static List<Path> definitionFiles(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder, 3)) {
      return files.filter(SupportChain::isDefinition).sorted().toList();
    }
  }

  /** Packages name files `Type-id.json`. */
  private static boolean isDefinition(Path file) {
    String name = file.getFileName().toString();
    int dash = name.indexOf('-');
    return dash > 0 && name.endsWith(".json") && KINDS.contains(name.substring(0, dash));
  }
}
