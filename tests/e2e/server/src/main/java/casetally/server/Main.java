package casetally.server;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.jpa.api.config.JpaStorageSettings;
import ca.uhn.fhir.jpa.api.dao.IFhirSystemDao;
import ca.uhn.fhir.jpa.provider.JpaCapabilityStatementProvider;
import ca.uhn.fhir.jpa.provider.JpaSystemProvider;
import ca.uhn.fhir.jpa.search.DatabaseBackedPagingProvider;
import ca.uhn.fhir.rest.server.RestfulServer;
import ca.uhn.fhir.rest.server.provider.ResourceProviderFactory;
import ca.uhn.fhir.rest.server.util.ISearchParamRegistry;
import org.eclipse.jetty.ee10.servlet.ServletContextHandler;
import org.eclipse.jetty.ee10.servlet.ServletHolder;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.springframework.context.annotation.AnnotationConfigApplicationContext;

/** Starts the server on a free loopback port and prints it: {@code ready http://127.0.0.1:PORT/fhir}. */
public final class Main {
  public static void main(String[] args) throws Exception {
    AnnotationConfigApplicationContext beans = new AnnotationConfigApplicationContext(ServerConfig.class);
    RestfulServer fhir = new RestfulServer(beans.getBean(FhirContext.class));
    fhir.registerProviders(beans.getBean(ResourceProviderFactory.class).createProviders());
    fhir.registerProvider(beans.getBean(JpaSystemProvider.class));
    fhir.setPagingProvider(beans.getBean(DatabaseBackedPagingProvider.class));
    fhir.setServerConformanceProvider(
        new JpaCapabilityStatementProvider(
            fhir,
            beans.getBean(IFhirSystemDao.class),
            beans.getBean(JpaStorageSettings.class),
            beans.getBean(ISearchParamRegistry.class),
            beans.getBean("myJpaValidationSupportChain", IValidationSupport.class)));

    Server jetty = new Server();
    ServerConnector connector = new ServerConnector(jetty);
    connector.setHost("127.0.0.1");
    jetty.addConnector(connector);
    ServletContextHandler context = new ServletContextHandler("/");
    context.addServlet(new ServletHolder(fhir), "/fhir/*");
    jetty.setHandler(context);
    jetty.start();
    System.out.println("ready http://127.0.0.1:" + connector.getLocalPort() + "/fhir");
    jetty.join();
  }
}
