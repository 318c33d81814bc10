import java.io.FileInputStream;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.logging.LogManager;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** Checks PDF files against PDF/UA-1 (ISO 14289-1): one line a file, then a line a broken rule. */
public class Validate {
  public static void main(String[] files) throws Exception {
    LogManager.getLogManager().reset();
    VeraGreenfieldFoundryProvider.initialise();
    for (String file : files) {
      try (FileInputStream in = new FileInputStream(file);
          PDFAParser parser = Foundries.defaultInstance().createParser(in, PDFAFlavour.PDFUA_1);
          PDFAValidator validator = Foundries.defaultInstance().createValidator(PDFAFlavour.PDFUA_1, false)) {
        ValidationResult result = validator.validate(parser);
        System.out.println((result.isCompliant() ? "pass " : "FAIL ") + Path.of(file).getFileName());
        Map<String, Integer> broken = new TreeMap<>();
        for (TestAssertion one : result.getTestAssertions())
          broken.merge(
              one.getRuleId().getClause() + ", test " + one.getRuleId().getTestNumber() + ": " + one.getMessage(),
              1,
              Integer::sum);
        broken.forEach((rule, times) -> System.out.println("  " + times + " x " + rule));
      }
    }
  }
}
