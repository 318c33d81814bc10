import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.context.support.ValidationSupportContext;
import ca.uhn.fhir.parser.IParser;
import ca.uhn.fhir.parser.LenientErrorHandler;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.SnapshotGeneratingValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.StructureDefinition;

/**
 * Prints the snapshots that the reference implementation makes, one StructureDefinition a line, of the profiles in the
 * last folder among the arguments; the folders before it hold the packages that they stand on.
 */
public final class Snapshots {
  public static void main(String[] args) throws Exception {
    PrintStream answers = new PrintStream(System.out, false, StandardCharsets.UTF_8);
    System.setOut(System.err);
    FhirContext context = FhirContext.forR4();
    IParser parser = context.newJsonParser();
    parser.setParserErrorHandler(new LenientErrorHandler(false));
    PrePopulatedValidationSupport packages = new PrePopulatedValidationSupport(context);
    List<StructureDefinition> own = new ArrayList<>();
    for (int i = 0; i < args.length; i++) {
      for (Path file : structures(Path.of(args[i]))) {
        IBaseResource resource = parser.parseResource(Files.readString(file));
        packages.addResource(resource);
        if (i == args.length - 1) {
          own.add((StructureDefinition) resource);
        }
      }
    }
    SnapshotGeneratingValidationSupport maker = new SnapshotGeneratingValidationSupport(context);
    IValidationSupport chain =
        new ValidationSupportChain(packages, new DefaultProfileValidationSupport(context), maker);
    ValidationSupportContext asking = new ValidationSupportContext(chain);
    for (StructureDefinition profile : own) {
      answers.println(
          parser.encodeResourceToString(
              maker.generateSnapshot(asking, profile, profile.getUrl(), null, profile.getName())));
    }
    answers.flush();
  }

  private static List<Path> structures(Path folder) throws Exception {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(file -> file.getFileName().toString().matches("StructureDefinition-.+\\.json"))
          .sorted()
          .toList();
    }
  }
}
