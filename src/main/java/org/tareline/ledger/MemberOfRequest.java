package org.tareline.ledger;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.MethodParameter;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.bind.support.WebDataBinderFactory;
import org.springframework.web.context.request.NativeWebRequest;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.method.support.ModelAndViewContainer;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.tareline.site.NotThere;

/**
 * Finds the {@link Member} who makes a request, once a request, and hands it to every handler that
 * asks for one. An account with several ledgers names one by the header {@code X-Ledger}. A reader
 * is turned away from everything that writes into a ledger.
 */
@Configuration(proxyBeanMethods = false)
class MemberOfRequest
    implements WebMvcConfigurer, HandlerMethodArgumentResolver, HandlerInterceptor {

  private static final Set<String> READING = Set.of("GET", "HEAD", "OPTIONS");
  private static final String MEMBER = Member.class.getName();

  private final Accounts accounts;

  MemberOfRequest(Accounts accounts) {
    this.accounts = accounts;
  }

  @Override
  public void addArgumentResolvers(List<HandlerMethodArgumentResolver> resolvers) {
    resolvers.add(this);
  }

  @Override
  public void addInterceptors(InterceptorRegistry registry) {
    registry
        .addInterceptor(this)
        .excludePathPatterns("/account/**", "/first-visit", "/sign-in", "/error");
  }

  @Override
  public boolean preHandle(
      HttpServletRequest request, HttpServletResponse response, Object handler) {
    if (!READING.contains(request.getMethod())) {
      Member member = member(request);
      if (member != null && !member.role().mayWrite()) {
        throw new AccessDeniedException("a reader of this ledger may not change it");
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
      throw new AccessDeniedException("nobody has signed in");
    }
    return member;
  }

  /** The member who makes this request, or null when nobody has signed in. */
  @Nullable Member member(HttpServletRequest request) {
    if (request.getAttribute(MEMBER) instanceof Member known) {
      return known;
    }
    Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
    if (authentication == null || !(authentication.getPrincipal() instanceof SignedIn signedIn)) {
      return null;
    }
    Member member = accounts.member(signedIn.accountId(), ledgerNamed(request));
    request.setAttribute(MEMBER, member);
    return member;
  }

  private static @Nullable UUID ledgerNamed(HttpServletRequest request) {
    String named = request.getHeader("X-Ledger");
    if (named == null) {
      return null;
    }
    try {
      return UUID.fromString(named);
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("ledger");
    }
  }
}
