package casetally.server;

import ca.uhn.fhir.batch2.jobs.config.Batch2JobsConfig;
import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.jpa.api.config.JpaStorageSettings;
import ca.uhn.fhir.jpa.api.config.ThreadPoolFactoryConfig;
import ca.uhn.fhir.jpa.batch2.JpaBatch2Config;
import ca.uhn.fhir.jpa.binstore.MemoryBinaryStorageSvcImpl;
import ca.uhn.fhir.jpa.binary.api.IBinaryStorageSvc;
import ca.uhn.fhir.jpa.config.HapiJpaConfig;
import ca.uhn.fhir.jpa.config.r4.JpaR4Config;
import ca.uhn.fhir.jpa.config.util.HapiEntityManagerFactoryUtil;
import ca.uhn.fhir.jpa.model.config.PartitionSettings;
import ca.uhn.fhir.jpa.model.config.SubscriptionSettings;
import ca.uhn.fhir.jpa.model.dialect.HapiFhirH2Dialect;
import ca.uhn.fhir.jpa.subscription.channel.config.SubscriptionChannelConfig;
import ca.uhn.fhir.jpa.subscription.match.config.SubscriptionProcessorConfig;
import ca.uhn.fhir.jpa.subscription.match.deliver.email.IEmailSender;
import ca.uhn.fhir.jpa.subscription.submit.config.SubscriptionSubmitterConfig;
import jakarta.persistence.EntityManagerFactory;
import java.util.Properties;
import javax.sql.DataSource;
import org.h2.jdbcx.JdbcConnectionPool;
import org.springframework.beans.factory.config.ConfigurableListableBeanFactory;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Import;
import org.springframework.context.annotation.Primary;
import org.springframework.orm.jpa.JpaTransactionManager;
import org.springframework.orm.jpa.LocalContainerEntityManagerFactoryBean;

/** The server's parts: its own defaults throughout, on an H2 database in memory, with search reuse off. */
@Configuration
@Import({
  JpaR4Config.class,
  HapiJpaConfig.class,
  JpaBatch2Config.class,
  Batch2JobsConfig.class,
  SubscriptionSubmitterConfig.class,
  SubscriptionProcessorConfig.class,
  SubscriptionChannelConfig.class,
  ThreadPoolFactoryConfig.class
})
public class ServerConfig {
  @Bean
  public JpaStorageSettings storageSettings() {
    JpaStorageSettings settings = new JpaStorageSettings();
    settings.setReuseCachedSearchResultsForMillis(null);
    return settings;
  }

  @Bean
  public PartitionSettings partitionSettings() {
    return new PartitionSettings();
  }

  @Bean
  public SubscriptionSettings subscriptionSettings() {
    return new SubscriptionSettings();
  }

  @Bean
  public DataSource dataSource() {
    return JdbcConnectionPool.create("jdbc:h2:mem:fhir;DB_CLOSE_DELAY=-1", "sa", "");
  }

  @Bean
  public LocalContainerEntityManagerFactoryBean entityManagerFactory(
      ConfigurableListableBeanFactory beans, FhirContext context, JpaStorageSettings settings, DataSource source) {
    LocalContainerEntityManagerFactoryBean factory =
        HapiEntityManagerFactoryUtil.newEntityManagerFactory(beans, context, settings);
    factory.setPersistenceUnitName("fhir");
    factory.setDataSource(source);
    Properties properties = new Properties();
    properties.put("hibernate.dialect", HapiFhirH2Dialect.class.getName());
    properties.put("hibernate.hbm2ddl.auto", "create");
    properties.put("hibernate.search.enabled", "false");
    factory.setJpaProperties(properties);
    return factory;
  }

  @Bean
  @Primary
  public JpaTransactionManager transactionManager(EntityManagerFactory factory) {
    return new JpaTransactionManager(factory);
  }

  @Bean
  public IBinaryStorageSvc binaryStorage() {
    return new MemoryBinaryStorageSvcImpl();
  }

  @Bean
  public IEmailSender emailSender() {
    return details -> {};
  }
}
