package org.tareline.site;

import org.springframework.http.HttpStatus;
import org.springframework.web.servlet.view.RedirectView;
import org.springframework.web.util.UriComponentsBuilder;

/**
 * Where a browser is sent after a form was done, by 303, so that going back does not send it again.
 */
public final class SeeOther {

  private SeeOther() {}

  /**
   * To a page of this server.
   *
   * @param path with a place for each name: {@code /parts/{code}}
   * @param names codes, as they are
   */
  public static RedirectView page(String path, Object... names) {
    RedirectView page =
        new RedirectView(
            UriComponentsBuilder.fromPath(path).encode().build(names).toString(), true);
    page.setStatusCode(HttpStatus.SEE_OTHER);
    page.setExposeModelAttributes(false);
    page.setExpandUriTemplateVariables(false);
    return page;
  }
}
