package org.tareline.site;

import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.web.servlet.resource.ResourceUrlEncodingFilter;

/**
 * Links are written as they stand. Otherwise Spring looks up each of them, {@code /parts/TP-1} as
 * well, among the static files of every jar, to see whether it should put a version into it: a
 * third of the time of a page with five hundred links. Files are found without a version all the
 * same.
 */
@Configuration(proxyBeanMethods = false)
class PlainLinks {

  @Bean
  FilterRegistrationBean<ResourceUrlEncodingFilter> linksAreNotLookedUp() {
    FilterRegistrationBean<ResourceUrlEncodingFilter> filter =
        new FilterRegistrationBean<>(new ResourceUrlEncodingFilter());
    filter.setEnabled(false);
    return filter;
  }
}
