package org.tareline.ledger;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.security.authentication.AuthenticationManager;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.LockedException;
import org.springframework.security.authentication.ProviderManager;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.core.userdetails.UserDetailsService;
import org.springframework.security.core.userdetails.UsernameNotFoundException;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.authentication.AuthenticationFilter;
import org.springframework.security.web.authentication.www.BasicAuthenticationFilter;
import org.springframework.security.web.header.writers.CrossOriginOpenerPolicyHeaderWriter.CrossOriginOpenerPolicy;
import org.springframework.security.web.header.writers.CrossOriginResourcePolicyHeaderWriter.CrossOriginResourcePolicy;
import org.springframework.web.util.ServletRequestPathUtils;
import org.tareline.site.Codes;

/**
 * Signing in: by form and session for pages, by HTTP Basic or a token and nothing kept for the API.
 * What an account may then see is not decided here but in every query, which takes its ledger from
 * the {@link Member}.
 */
@Configuration(proxyBeanMethods = false)
class SecurityRules {

  private static final String CONTENT_SECURITY_POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
          + "worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

  /** What no page asks of a browser. */
  private static final String PERMISSIONS_POLICY =
      "camera=(), geolocation=(), microphone=(), payment=(), usb=()";

  private static final String BEARER = "Bearer ";

  @Bean
  PasswordEncoder passwordEncoder(Clock clock) {
    return new RememberedMatches(new LongPasswords(), clock);
  }

  @Bean
  SignInThrottle signInThrottle(Clock clock) {
    return new SignInThrottle(clock);
  }

  @Bean
  UserDetailsService accountsByName(AccountRepository accounts) {
    return name ->
        accounts
            .findByNameKey(Codes.key(name))
            .map(Account::signedIn)
            .orElseThrow(() -> UsernameNotFoundException.fromUsername(name));
  }

  @Bean
  PasswordSignIn byForm(
      UserDetailsService accounts,
      PasswordEncoder passwords,
      SignInThrottle throttle,
      SecondFactors secondFactors,
      Calls calls) {
    return new PasswordSignIn(accounts, passwords, throttle, secondFactors, calls);
  }

  /**
   * Whoever is asked for a second factor is nobody here, so that nothing tells whether a password
   * was right. Failures are counted apart from the form's: a script that keeps asking does not keep
   * its owner from signing in.
   */
  @Bean
  PasswordSignIn byBasic(
      UserDetailsService accounts,
      PasswordEncoder passwords,
      SecondFactors secondFactors,
      Calls calls,
      Clock clock) {
    UserDetailsService byPasswordAlone =
        name -> {
          if (accounts.loadUserByUsername(name) instanceof SignedIn account
              && !account.secondFactor()
              && !secondFactors.required()) {
            return account;
          }
          throw UsernameNotFoundException.fromUsername(name);
        };
    return new PasswordSignIn(
        byPasswordAlone, passwords, new SignInThrottle(clock), secondFactors, calls);
  }

  @Bean
  @Order(1)
  SecurityFilterChain api(HttpSecurity http, PasswordSignIn byBasic, Tokens tokens)
      throws Exception {
    return headers(http)
        .securityMatcher("/api/**")
        .authenticationManager(new ProviderManager(byBasic))
        .authorizeHttpRequests(
            requests ->
                requests
                    .requestMatchers(SecurityRules::openToAll)
                    .permitAll()
                    .anyRequest()
                    .authenticated())
        .addFilterBefore(bearer(tokens), BasicAuthenticationFilter.class)
        .httpBasic(basic -> basic.authenticationEntryPoint(SecurityRules::refuseAtApi))
        .exceptionHandling(
            handling -> handling.authenticationEntryPoint(SecurityRules::refuseAtApi))
        // No cookie is read here, so there is nothing for a forged request to ride on.
        .csrf(AbstractHttpConfigurer::disable)
        .sessionManagement(
            session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
        .requestCache(AbstractHttpConfigurer::disable)
        .build();
  }

  @Bean
  @Order(2)
  SecurityFilterChain pages(HttpSecurity http, PasswordSignIn byForm) throws Exception {
    return headers(http)
        .authenticationManager(new ProviderManager(byForm))
        .authorizeHttpRequests(
            requests ->
                requests
                    // From inside alone: what a link shows, once the link was found good.
                    .dispatcherTypeMatchers(DispatcherType.FORWARD)
                    .permitAll()
                    .requestMatchers(SecurityRules::openToAll)
                    .permitAll()
                    // What tells of the server's inside is for nobody, whatever is switched on.
                    .requestMatchers("/actuator/**")
                    .denyAll()
                    .anyRequest()
                    .authenticated())
        .formLogin(
            form ->
                form.loginPage("/sign-in")
                    .usernameParameter("name")
                    .authenticationDetailsSource(PasswordSignIn.WithCode::new)
                    .failureForwardUrl("/sign-in/refused"))
        .logout(logout -> logout.logoutUrl("/sign-out").logoutSuccessUrl("/sign-in?out"))
        .csrf(csrf -> csrf.csrfTokenRepository(new FormKeys()))
        .requestCache(cache -> cache.requestCache(new WantedPage()))
        .build();
  }

  private static boolean openToAll(HttpServletRequest request) {
    return Access.needs(
            request.getMethod(), ServletRequestPathUtils.parse(request).pathWithinApplication())
        == Access.Needs.NOTHING;
  }

  /** Signing in by a token (RFC 6750, 2.1): {@code Authorization: Bearer ...}. */
  private static AuthenticationFilter bearer(Tokens tokens) {
    AuthenticationManager manager =
        attempt ->
            tokens
                .signedIn(String.valueOf(attempt.getCredentials()))
                .map(
                    signedIn ->
                        UsernamePasswordAuthenticationToken.authenticated(
                            signedIn, null, List.of()))
                .orElseThrow(() -> new BadCredentialsException("no good token"));
    AuthenticationFilter filter = new AuthenticationFilter(manager, SecurityRules::bearerToken);
    filter.setSuccessHandler((request, response, signedIn) -> {});
    filter.setFailureHandler(SecurityRules::refuseAtApi);
    return filter;
  }

  private static @Nullable Authentication bearerToken(HttpServletRequest request) {
    String header = request.getHeader(HttpHeaders.AUTHORIZATION);
    return header != null && header.regionMatches(true, 0, BEARER, 0, BEARER.length())
        ? UsernamePasswordAuthenticationToken.unauthenticated(
            "token", header.substring(BEARER.length()).strip())
        : null;
  }

  private static HttpSecurity headers(HttpSecurity http) throws Exception {
    return http.headers(
        headers ->
            headers
                .contentSecurityPolicy(policy -> policy.policyDirectives(CONTENT_SECURITY_POLICY))
                .referrerPolicy(
                    referrer ->
                        referrer.policy(
                            org.springframework.security.web.header.writers
                                .ReferrerPolicyHeaderWriter.ReferrerPolicy.SAME_ORIGIN))
                .permissionsPolicyHeader(policy -> policy.policy(PERMISSIONS_POLICY))
                .crossOriginOpenerPolicy(
                    policy -> policy.policy(CrossOriginOpenerPolicy.SAME_ORIGIN))
                .crossOriginResourcePolicy(
                    policy -> policy.policy(CrossOriginResourcePolicy.SAME_ORIGIN)));
  }

  /** Refuses with a problem detail (RFC 9457), as everything at the API does. */
  private static void refuseAtApi(
      HttpServletRequest request, HttpServletResponse response, AuthenticationException refused)
      throws IOException {
    String body;
    if (refused instanceof LockedException wait) {
      response.setStatus(429);
      response.setHeader("Retry-After", wait.getMessage());
      body =
          "{\"title\":\"Too Many Requests\",\"status\":429,\"detail\":\"Too many wrong names or passwords came from "
              + "this address. Wait "
              + wait.getMessage()
              + " s and try again.\"}";
    } else {
      response.setStatus(HttpServletResponse.SC_UNAUTHORIZED);
      response.setHeader("WWW-Authenticate", "Basic realm=\"Tareline\"");
      response.addHeader("WWW-Authenticate", "Bearer realm=\"Tareline\"");
      body =
          "{\"title\":\"Unauthorized\",\"status\":401,\"detail\":\"Sign in by HTTP Basic with the name and the "
              + "password of an account, or by a bearer token that is good. Whoever signs in with a second factor "
              + "makes a token on the page Account: a password alone opens nothing here.\"}";
    }
    response.setContentType(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
    response.setCharacterEncoding(StandardCharsets.UTF_8.name());
    response.getWriter().write(body);
  }
}
