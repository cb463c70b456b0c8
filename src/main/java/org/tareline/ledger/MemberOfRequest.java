package org.tareline.ledger;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import jakarta.servlet.http.HttpSession;
import java.io.IOException;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.MethodParameter;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.authentication.CredentialsExpiredException;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.web.context.HttpSessionSecurityContextRepository;
import org.springframework.web.bind.support.WebDataBinderFactory;
import org.springframework.web.context.request.NativeWebRequest;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.method.support.ModelAndViewContainer;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.HandlerMapping;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.springframework.web.util.ServletRequestPathUtils;
import org.tareline.site.NotThere;

/**
 * Finds the {@link Member} who makes a request, once a request, and hands it to every handler that
 * asks for one. An account with several ledgers names one by the header {@code X-Ledger} or by its
 * token; on pages by the one it went to last. Whose role does not reach what {@link Access} asks is
 * turned away.
 */
@Configuration(proxyBeanMethods = false)
public class MemberOfRequest
    implements WebMvcConfigurer, HandlerMethodArgumentResolver, HandlerInterceptor {

  private static final Logger LOG = LoggerFactory.getLogger(MemberOfRequest.class);

  /** Where a session keeps the ledger that its pages show. */
  private static final String LEDGER = MemberOfRequest.class.getName() + ".ledger";

  /** Where it is set up, and the one place to go to before it is, where it has to be. */
  private static final String SECOND_FACTOR = "/account/second-factor";

  private static final String MEMBER = Member.class.getName();

  private final Accounts accounts;
  private final SecondFactors secondFactors;

  MemberOfRequest(Accounts accounts, SecondFactors secondFactors) {
    this.accounts = accounts;
    this.secondFactors = secondFactors;
  }

  @Override
  public void addArgumentResolvers(List<HandlerMethodArgumentResolver> resolvers) {
    resolvers.add(this);
  }

  @Override
  public void addInterceptors(InterceptorRegistry registry) {
    registry.addInterceptor(this);
  }

  @Override
  public boolean preHandle(HttpServletRequest request, HttpServletResponse response, Object handler)
      throws IOException {
    Access.Needs needs =
        Access.needs(
            request.getMethod(),
            ServletRequestPathUtils.parseAndCache(request).pathWithinApplication());
    if (needs != Access.Needs.NOTHING) {
      Member member = member(request);
      SignedIn signedIn = signedIn();
      boolean byToken = signedIn != null && signedIn.ledger() != null;
      if (member != null
          && !needs.metBy(member.role(), byToken, () -> accounts.madeFirst(member))) {
        LOG.warn(
            "Refused: account {}, {} in ledger {}, asked for {} {}",
            member.accountId(),
            member.role().word(),
            member.ledgerId(),
            request.getMethod(),
            request.getAttribute(HandlerMapping.BEST_MATCHING_PATTERN_ATTRIBUTE));
        throw new AccessDeniedException(needs.words());
      }
      if (secondFactors.required()
          && signedIn != null
          && !byToken
          && !signedIn.secondFactor()
          && !request.getRequestURI().startsWith(request.getContextPath() + SECOND_FACTOR)) {
        response.sendRedirect(request.getContextPath() + SECOND_FACTOR);
        return false;
      }
    }
    return true;
  }

  @Override
  public boolean supportsParameter(MethodParameter parameter) {
    return parameter.getParameterType() == Member.class;
  }

  @Override
  public Object resolveArgument(
      MethodParameter parameter,
      @Nullable ModelAndViewContainer container,
      NativeWebRequest request,
      @Nullable WebDataBinderFactory binders) {
    HttpServletRequest servletRequest = request.getNativeRequest(HttpServletRequest.class);
    Member member = servletRequest == null ? null : member(servletRequest);
    if (member == null) {
      throw new AccessDeniedException(Access.Needs.READER.words());
    }
    return member;
  }

  /** The member who makes this request, or null when nobody has signed in. */
  @Nullable Member member(HttpServletRequest request) {
    if (request.getAttribute(MEMBER) instanceof Member known) {
      return known;
    }
    SignedIn signedIn = signedIn();
    if (signedIn == null) {
      return null;
    }
    try {
      UUID named = ledgerNamed(request, signedIn);
      Member member =
          named == null
              ? accounts.memberAtHome(signedIn, ledgerOfSession(request))
              : accounts.member(signedIn, named);
      request.setAttribute(MEMBER, member);
      return member;
    } catch (CredentialsExpiredException passwordChanged) {
      HttpSession session = request.getSession(false);
      if (session != null) {
        session.invalidate();
      }
      throw passwordChanged;
    }
  }

  private static @Nullable SignedIn signedIn() {
    Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
    return authentication != null && authentication.getPrincipal() instanceof SignedIn signedIn
        ? signedIn
        : null;
  }

  /** Lets whoever came by a link see what a guest sees, for this request alone. */
  public void actAs(HttpServletRequest request, Member guest) {
    request.setAttribute(MEMBER, guest);
  }

  /** Keeps whoever asks signed in after what signs the account in was changed, by another id. */
  public void signInAnew(HttpServletRequest request, HttpServletResponse response, Member member) {
    request.changeSessionId();
    SecurityContext context = SecurityContextHolder.createEmptyContext();
    context.setAuthentication(
        UsernamePasswordAuthenticationToken.authenticated(
            accounts.signedIn(member), null, List.of()));
    SecurityContextHolder.setContext(context);
    new HttpSessionSecurityContextRepository().saveContext(context, request, response);
  }

  /** Shows whoever is signed in here another of the account's ledgers from now on. */
  public void goTo(HttpServletRequest request, UUID ledger) {
    request.getSession().setAttribute(LEDGER, ledger);
  }

  private @Nullable UUID ledgerNamed(HttpServletRequest request, SignedIn signedIn) {
    String named = request.getHeader("X-Ledger");
    if (named == null) {
      return signedIn.ledger();
    }
    try {
      UUID ledger = UUID.fromString(named);
      if (signedIn.ledger() == null || signedIn.ledger().equals(ledger)) {
        return ledger;
      }
    } catch (IllegalArgumentException notAnId) {
      // said below
    }
    throw new NotThere("ledger");
  }

  private static @Nullable UUID ledgerOfSession(HttpServletRequest request) {
    HttpSession session = request.getSession(false);
    return session != null && session.getAttribute(LEDGER) instanceof UUID ledger ? ledger : null;
  }
}
