package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import com.fasterxml.jackson.annotation.JsonInclude;
import jakarta.servlet.http.HttpServletResponse;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.SetUp;
import org.tareline.rig.SetUps;
import org.tareline.site.RevisionTag;
import org.tareline.site.json.Listed;
import org.tareline.site.json.TypedText;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Records of how a rig was hung and how that felt. */
@RestController
@RequestMapping("/api/v1/rigs/{code}/set-ups")
class SetUpResource {

  /** A record as it is sent: all but the date may be left out; figures may carry a ±. */
  @JsonIgnoreProperties({"id", "revision"})
  record SetUpRequest(
      @Nullable String hungOn,
      @JsonDeserialize(using = TypedText.class) @Nullable String ridgeLength,
      @JsonDeserialize(using = TypedText.class) @Nullable String ridgeMark,
      @JsonDeserialize(using = TypedText.class) @Nullable String headAngle,
      @JsonDeserialize(using = TypedText.class) @Nullable String headRun,
      @JsonDeserialize(using = TypedText.class) @Nullable String headRise,
      @JsonDeserialize(using = TypedText.class) @Nullable String footAngle,
      @JsonDeserialize(using = TypedText.class) @Nullable String footRun,
      @JsonDeserialize(using = TypedText.class) @Nullable String footRise,
      @JsonDeserialize(using = TypedText.class) @Nullable String sag,
      @JsonDeserialize(using = TypedText.class) @Nullable String headHeight,
      @JsonDeserialize(using = TypedText.class) @Nullable String footHeight,
      @JsonDeserialize(using = TypedText.class) @Nullable String anchorDistance,
      @Nullable String words,
      @Nullable Boolean favourite) {

    SetUps.Entry entry() {
      return new SetUps.Entry(
          hungOn,
          ridgeLength,
          ridgeMark,
          headAngle,
          headRun,
          headRise,
          footAngle,
          footRun,
          footRise,
          sag,
          headHeight,
          footHeight,
          anchorDistance,
          words,
          favourite);
    }
  }

  /**
   * A record, its figures as they were typed.
   *
   * @param ridgeMark how far along the ridge line the mark sits that it was set to
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record SetUpJson(
      String id,
      @Nullable String hungOn,
      @Nullable String ridgeLength,
      @Nullable String ridgeMark,
      @Nullable String headAngle,
      @Nullable String headRun,
      @Nullable String headRise,
      @Nullable String footAngle,
      @Nullable String footRun,
      @Nullable String footRise,
      @Nullable String sag,
      @Nullable String headHeight,
      @Nullable String footHeight,
      @Nullable String anchorDistance,
      @Nullable String words,
      @Nullable Boolean favourite,
      int revision) {

    static SetUpJson of(SetUp setUp) {
      SetUps.Entry entry = setUp.entry();
      return new SetUpJson(
          setUp.uuid().toString(),
          entry.hungOn(),
          entry.ridgeLength(),
          entry.ridgeMark(),
          entry.headAngle(),
          entry.headRun(),
          entry.headRise(),
          entry.footAngle(),
          entry.footRun(),
          entry.footRise(),
          entry.sag(),
          entry.headHeight(),
          entry.footHeight(),
          entry.anchorDistance(),
          entry.words(),
          entry.favourite(),
          setUp.revision());
    }
  }

  private final Rigs rigs;
  private final SetUps setUps;

  SetUpResource(Rigs rigs, SetUps setUps) {
    this.rigs = rigs;
    this.setUps = setUps;
  }

  /** The favourite first, then the newest. */
  @GetMapping
  Listed<SetUpJson> all(Member member, @PathVariable String code) {
    return Listed.whole(
        setUps.of(member, rigs.get(member, code)).stream().map(SetUpJson::of).toList());
  }

  @GetMapping("/{id}")
  SetUpJson one(
      Member member,
      @PathVariable String code,
      @PathVariable String id,
      HttpServletResponse response) {
    return answer(setUps.get(member, rigs.get(member, code), id), response);
  }

  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  SetUpJson add(
      Member member,
      @PathVariable String code,
      @RequestBody SetUpRequest request,
      HttpServletResponse response) {
    Rig rig = rigs.get(member, code);
    SetUp setUp = setUps.add(member, rig.code(), request.entry());
    response.setHeader(
        HttpHeaders.LOCATION,
        UriComponentsBuilder.fromPath("/api/v1/rigs")
            .pathSegment("{code}", "set-ups", "{id}")
            .encode()
            .build(rig.code(), setUp.uuid())
            .toString());
    return answer(setUp, response);
  }

  /** Describes a record anew; what is left out is then not said. */
  @PutMapping("/{id}")
  SetUpJson change(
      Member member,
      @PathVariable String code,
      @PathVariable String id,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      @RequestBody SetUpRequest request,
      HttpServletResponse response) {
    return answer(
        setUps.change(member, code, id, request.entry(), RevisionTag.expected(ifMatch)), response);
  }

  private static SetUpJson answer(SetUp setUp, HttpServletResponse response) {
    response.setHeader(HttpHeaders.ETAG, RevisionTag.of(setUp.revision()));
    return SetUpJson.of(setUp);
  }
}
