package casetally.oracle;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.DataFormatException;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import ca.uhn.fhir.validation.ValidationOptions;
import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Answers validation requests with the verdicts of the HAPI FHIR instance validator.
 *
 * <p>Arguments: folders of FHIR packages (JSON resources). Standard input: one request a line, either a bare
 * resource or a frame {@code {"id", "profiles": [...], "resource": {...}}}, where {@code "text"} may stand in
 * for {@code "resource"} when the exact bytes matter (line numbers, number spelling, broken JSON). Standard
 * output: first {@code {"ready": true, ...}}, then one line a request:
 * {@code {"id", "ms", "issues": [{"severity", "path", "message", "messageId", "line"}]}}, in order.
 */
public final class ReferenceOracle {
  private ReferenceOracle() {}

  public static void main(String[] args) throws Exception {
    // The validator's libraries print to standard output here and there; keep that stream for answers only.
    PrintStream answers = new PrintStream(System.out, false, StandardCharsets.UTF_8);
    System.setOut(System.err);

    long start = System.nanoTime();
    FhirContext context = release(args[0]);
    List<Path> folders = new ArrayList<>();
    for (int i = 1; i < args.length; i++) {
      folders.add(Path.of(args[i]));
    }
    SupportChain support = SupportChain.load(context, folders);
    FhirValidator validator = support.validator();
    validator.validateWithResult("{\"resourceType\":\"Basic\",\"code\":{\"text\":\"warm\"}}");

    JsonObject ready = new JsonObject();
    ready.addProperty("ready", true);
    ready.addProperty("ms", milliseconds(start));
    ready.addProperty("definitions", support.size());
    ready.addProperty("java", System.getProperty("java.version"));
    answers.println(ready);
    answers.flush();

    BufferedReader requests = new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    for (String line = requests.readLine(); line != null; line = requests.readLine()) {
      if (!line.isBlank()) {
        answers.println(answer(validator, line));
        answers.flush();
      }
    }
  }

  private static FhirContext release(String version) {
    return switch (version) {
      case "4.0.1" -> FhirContext.forR4();
      case "4.3.0" -> FhirContext.forR4B();
      case "5.0.0" -> FhirContext.forR5();
      default -> throw new IllegalArgumentException("no release " + version);
    };
  }

  private static JsonObject answer(FhirValidator validator, String line) {
    JsonObject reply = new JsonObject();
    JsonArray issues = new JsonArray();
    long start = System.nanoTime();
    try {
      JsonObject request = JsonParser.parseString(line).getAsJsonObject();
      boolean framed = request.has("resource") || request.has("text");
      if (framed && request.has("id")) {
        reply.add("id", request.get("id"));
      }
      ValidationOptions options = new ValidationOptions();
      if (framed && request.has("profiles")) {
        for (JsonElement profile : request.getAsJsonArray("profiles")) {
          options.addProfile(profile.getAsString());
        }
      }
      start = System.nanoTime();
      for (SingleValidationMessage message : validator.validateWithResult(textOf(request, line), options).getMessages()) {
        issues.add(issue(message));
      }
    } catch (DataFormatException | JsonParseException refusal) {
      // Before the validator proper runs, the library reads the text; what it cannot read it refuses this way.
      issues.add(refused(refusal));
    } catch (Exception failure) {
      // A crash of the validator is an answer too: the caller has to see that there is no verdict.
      reply.addProperty("failure", failure.toString());
    }
    reply.addProperty("ms", milliseconds(start));
    reply.add("issues", issues);
    return reply;
  }

  private static String textOf(JsonObject request, String line) {
    if (request.has("text")) {
      return request.get("text").getAsString();
    }
    return request.has("resource") ? request.get("resource").toString() : line;
  }

  private static JsonObject issue(SingleValidationMessage message) {
    JsonObject issue = new JsonObject();
    ResultSeverityEnum severity = message.getSeverity();
    issue.addProperty("severity", severity == null ? "information" : severity.getCode());
    issue.addProperty("path", message.getLocationString());
    issue.addProperty("message", message.getMessage());
    issue.addProperty("messageId", message.getMessageId());
    issue.addProperty("line", message.getLocationLine());
    return issue;
  }

  private static JsonObject refused(Exception refusal) {
    JsonObject issue = new JsonObject();
    issue.addProperty("severity", "fatal");
    issue.addProperty("path", "");
    issue.addProperty("message", refusal.getMessage());
    issue.addProperty("messageId", "not-readable");
    return issue;
  }

  private static double milliseconds(long since) {
    return Math.round((System.nanoTime() - since) / 1e4) / 100.0;
  }
}
